// SHA-256 (FIPS 180-4) of a short text, for the policy of a page: the page names the digest of its own style and script,
// and a browser then runs these and nothing else. Written out because this code also runs where there is no Node.

const PRIMES = [2, 3, 5, 7, 11, 13, 17, 19];

function constants(): { round: Uint32Array; start: Uint32Array } {
  const round = new Uint32Array(64);
  const fraction = (value: number): number => Math.floor((value - Math.floor(value)) * 2 ** 32);
  for (let candidate = 2, found = 0; found < 64; candidate++) {
    let isPrime = true;
    for (let divisor = 2; divisor * divisor <= candidate; divisor++)
      if (candidate % divisor === 0) isPrime = false;
    if (isPrime) round[found++] = fraction(Math.cbrt(candidate));
  }
  return { round, start: Uint32Array.from(PRIMES, (prime) => fraction(Math.sqrt(prime))) };
}

const turned = (word: number, by: number): number => (word >>> by) | (word << (32 - by));

function padded(text: string): Uint8Array {
  const bytes = new TextEncoder().encode(text);
  const length = Math.ceil((bytes.length + 9) / 64) * 64;
  const all = new Uint8Array(length);
  all.set(bytes);
  all[bytes.length] = 0x80;
  new DataView(all.buffer).setUint32(length - 4, bytes.length * 8);
  return all;
}

/** The digest in base 64, as a policy wants it. */
export function sha256(text: string): string {
  const { round, start } = constants();
  const state = start.slice();
  const bytes = padded(text);
  const view = new DataView(bytes.buffer);
  const words = new Uint32Array(64);
  for (let block = 0; block < bytes.length; block += 64) {
    for (let i = 0; i < 16; i++) words[i] = view.getUint32(block + 4 * i);
    for (let i = 16; i < 64; i++) {
      const [a, b] = [words[i - 15], words[i - 2]];
      const low = turned(a, 7) ^ turned(a, 18) ^ (a >>> 3);
      const high = turned(b, 17) ^ turned(b, 19) ^ (b >>> 10);
      words[i] = words[i - 16] + low + words[i - 7] + high;
    }
    let [a, b, c, d, e, f, g, h] = state;
    for (let i = 0; i < 64; i++) {
      const high = turned(e, 6) ^ turned(e, 11) ^ turned(e, 25);
      const first = (h + high + ((e & f) ^ (~e & g)) + round[i] + words[i]) >>> 0;
      const low = turned(a, 2) ^ turned(a, 13) ^ turned(a, 22);
      const second = (low + ((a & b) ^ (a & c) ^ (b & c))) >>> 0;
      [h, g, f, e, d, c, b, a] = [g, f, e, (d + first) >>> 0, c, b, a, (first + second) >>> 0];
    }
    [a, b, c, d, e, f, g, h].forEach((word, i) => {
      state[i] += word;
    });
  }
  const digest = new Uint8Array(32);
  state.forEach((word, i) => {
    new DataView(digest.buffer).setUint32(4 * i, word);
  });
  return btoa(String.fromCharCode(...digest));
}
