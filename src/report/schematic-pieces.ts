// Straight pieces of wire: united where they lie on one another, tied where three directions meet, counted where they cross.

export interface Spot {
  readonly x: number;
  readonly y: number;
}

export type Piece = readonly [Spot, Spot];

/** The pieces of a route. */
export function piecesOf(route: readonly Spot[]): Piece[] {
  return route.slice(1).map((spot, at): Piece => [route[at], spot]);
}

const isLevel = ([a, b]: Piece): boolean => Math.abs(a.y - b.y) < 0.01;

/** Unites pieces that lie on one another. */
export function mergedPieces(pieces: readonly Piece[]): Piece[] {
  const merged: Piece[] = [];
  for (const level of [true, false]) {
    const lanes = new Map<number, [number, number][]>();
    for (const piece of pieces) {
      if (isLevel(piece) !== level) continue;
      const [a, b] = piece;
      const key = Math.round((level ? a.y : a.x) * 10) / 10;
      const span: [number, number] = level
        ? [Math.min(a.x, b.x), Math.max(a.x, b.x)]
        : [Math.min(a.y, b.y), Math.max(a.y, b.y)];
      if (span[1] - span[0] < 0.01) continue;
      lanes.set(key, [...(lanes.get(key) ?? []), span]);
    }
    for (const [key, spans] of [...lanes].sort((a, b) => a[0] - b[0])) {
      spans.sort((a, b) => a[0] - b[0]);
      let [from, to] = spans[0];
      const put = (): void => {
        merged.push(
          level
            ? [
                { x: from, y: key },
                { x: to, y: key },
              ]
            : [
                { x: key, y: from },
                { x: key, y: to },
              ],
        );
      };
      for (const [low, high] of spans.slice(1)) {
        if (low <= to + 0.01) to = Math.max(to, high);
        else {
          put();
          [from, to] = [low, high];
        }
      }
      put();
    }
  }
  return merged;
}

/** Spots where three or more directions of a net meet. */
export function dotsOf(pieces: readonly Piece[]): Spot[] {
  const level = pieces.filter(isLevel);
  const upright = pieces.filter((piece) => !isLevel(piece));
  const dots: Spot[] = [];
  for (const [a, b] of level) {
    for (const [c, d] of upright) {
      if (c.x < a.x - 0.01 || c.x > b.x + 0.01 || a.y < c.y - 0.01 || a.y > d.y + 0.01) continue;
      const arms =
        (c.x > a.x + 0.01 ? 1 : 0) +
        (c.x < b.x - 0.01 ? 1 : 0) +
        (a.y > c.y + 0.01 ? 1 : 0) +
        (a.y < d.y - 0.01 ? 1 : 0);
      if (arms >= 3) dots.push({ x: c.x, y: a.y });
    }
  }
  return dots;
}

/** The pieces of one net. */
export interface NetPieces {
  readonly net: number;
  readonly pieces: readonly Piece[];
}

/** Points where a level piece of one net and an upright piece of another meet. */
export function countCrossings(nets: readonly NetPieces[]): number {
  let crossings = 0;
  const upright = nets.flatMap(({ net, pieces }) =>
    pieces.filter((piece) => !isLevel(piece)).map((piece) => ({ net, piece })),
  );
  for (const { net, pieces } of nets) {
    for (const [a, b] of pieces.filter(isLevel)) {
      for (const { net: other, piece } of upright) {
        const [c, d] = piece;
        if (other !== net && c.x > a.x && c.x < b.x && a.y > c.y && a.y < d.y) crossings++;
      }
    }
  }
  return crossings;
}
