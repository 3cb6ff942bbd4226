// The name that was probably meant. Distance is counted in single letters added, left out, changed, or swapped with
// their neighbour (optimal string alignment); capitals count for almost nothing. Costs the product of the two lengths
// for each candidate, so long names and long lists are not searched.

const LONGEST_NAME = 40;
const MOST_CANDIDATES = 2000;

/** The candidate nearest to `name`, the first of several; null when none is near enough to be a slip of the pen. */
export function nearestName(name: string, candidates: Iterable<string>): string | null {
  if (name.length > LONGEST_NAME) return null;
  let best: string | null = null;
  let bestDistance = Math.max(1, Math.floor(name.length / 3)) + 0.75;
  let seen = 0;
  for (const candidate of candidates) {
    if (++seen > MOST_CANDIDATES) break;
    if (Math.abs(candidate.length - name.length) > bestDistance || candidate === name) continue;
    const distance =
      distanceOf(name.toLowerCase(), candidate.toLowerCase()) + (startsAlike(name, candidate) ? 0 : 0.5);
    if (distance < bestDistance && distance < name.length) {
      best = candidate;
      bestDistance = distance;
    }
  }
  return best;
}

function startsAlike(a: string, b: string): boolean {
  return a[0]?.toLowerCase() === b[0]?.toLowerCase();
}

function distanceOf(a: string, b: string): number {
  let beforeLast: number[] = [];
  let last = Array.from({ length: b.length + 1 }, (_, column) => column);
  for (let row = 1; row <= a.length; row++) {
    const current = [row];
    for (let column = 1; column <= b.length; column++) {
      const same = a[row - 1] === b[column - 1] ? 0 : 1;
      let cost = Math.min(last[column]! + 1, current[column - 1]! + 1, last[column - 1]! + same);
      const swapped = row > 1 && column > 1 && a[row - 1] === b[column - 2] && a[row - 2] === b[column - 1];
      if (swapped) cost = Math.min(cost, beforeLast[column - 2]! + 1);
      current.push(cost);
    }
    beforeLast = last;
    last = current;
  }
  return last[b.length]!;
}
