// What must hold of a schematic, told from where things were placed, in the words of someone who looks at it. Written
// apart from the layout: a violation is a sentence.

import type { Placed, PlacedBox } from '../../src/report/schematic-layout.ts';
import type { Spot } from '../../src/report/schematic-pieces.ts';
import type { Plan } from '../../src/report/schematic-plan.ts';

type Piece = readonly [Spot, Spot];

const NEAR = 0.6;
const same = (a: Spot, b: Spot): boolean => Math.abs(a.x - b.x) < NEAR && Math.abs(a.y - b.y) < NEAR;
const between = (value: number, a: number, b: number): boolean =>
  value >= Math.min(a, b) - NEAR && value <= Math.max(a, b) + NEAR;

function onPiece({ x, y }: Spot, [a, b]: Piece): boolean {
  return between(x, a.x, b.x) && between(y, a.y, b.y);
}

/** Does a straight piece run through the inside of a box? Touching its edge is allowed. */
function runsThrough([a, b]: Piece, { x, y, width, height }: PlacedBox): boolean {
  const [left, right] = [Math.min(a.x, b.x), Math.max(a.x, b.x)];
  const [top, bottom] = [Math.min(a.y, b.y), Math.max(a.y, b.y)];
  return left < x + width - NEAR && right > x + NEAR && top < y + height - NEAR && bottom > y + NEAR;
}

/** The pieces that hang together with a spot. */
function reach(start: Spot, pieces: readonly Piece[]): Piece[] {
  const reached: Piece[] = [];
  const rest = new Set(pieces);
  const waiting: Spot[] = [start];
  const crosses = (one: Piece, other: Piece): boolean =>
    one[0].y === one[1].y &&
    other[0].x === other[1].x &&
    onPiece({ x: other[0].x, y: one[0].y }, one) &&
    onPiece({ x: other[0].x, y: one[0].y }, other);
  // Where pieces of one net cross there is a dot.
  const touches = (piece: Piece, other: Piece): boolean =>
    [
      onPiece(piece[0], other),
      onPiece(piece[1], other),
      onPiece(other[0], piece),
      onPiece(other[1], piece),
    ].includes(true) ||
    crosses(piece, other) ||
    crosses(other, piece);
  while (waiting.length > 0) {
    const spot = waiting.pop()!;
    for (const piece of rest) {
      if (!onPiece(spot, piece)) continue;
      rest.delete(piece);
      const found = [piece];
      while (found.length > 0) {
        const next = found.pop()!;
        reached.push(next);
        for (const other of rest) {
          if (!touches(next, other)) continue;
          rest.delete(other);
          found.push(other);
        }
      }
    }
  }
  return reached;
}

/** Everything that is wrong with a drawing; empty when nothing is. */
export function geometryFaults(plan: Plan, placed: Placed): string[] {
  const faults: string[] = [];
  const { boxes, nets } = placed;
  const nameOf = ({ box }: PlacedBox): string => `${box.kind} ${box.name}`;
  boxes.forEach((one, at) => {
    for (const other of boxes.slice(at + 1)) {
      const apart =
        one.x + one.width <= other.x + NEAR ||
        other.x + other.width <= one.x + NEAR ||
        one.y + one.height <= other.y + NEAR ||
        other.y + other.height <= one.y + NEAR;
      if (!apart) faults.push(`${nameOf(one)} overlaps ${nameOf(other)}`);
    }
    const isInside =
      one.x >= -NEAR &&
      one.y >= -NEAR &&
      one.x + one.width <= placed.width + NEAR &&
      one.y + one.height <= placed.height + NEAR;
    if (!isInside) faults.push(`${nameOf(one)} stands outside the view`);
  });
  for (const { net, pieces } of nets) {
    const { name } = plan.nets[net];
    for (const piece of pieces) {
      const [a, b] = piece;
      if (a.x !== b.x && a.y !== b.y) faults.push(`a piece of ${name} is slanted`);
      for (const box of boxes) {
        // The wires of a join are the join.
        const isOwnJoin = box.box.kind === 'join' && box.box.leads[0] === net;
        if (!isOwnJoin && runsThrough(piece, box)) faults.push(`wire ${name} runs through ${nameOf(box)}`);
      }
    }
  }
  // Wires of different nets may cross, but not lie on each other.
  nets.forEach((one, at) => {
    for (const other of nets.slice(at + 1)) {
      for (const [a, b] of one.pieces) {
        for (const [c, d] of other.pieces) {
          const level = a.y === b.y && c.y === d.y && Math.abs(a.y - c.y) < NEAR;
          const upright = a.x === b.x && c.x === d.x && Math.abs(a.x - c.x) < NEAR;
          const shared = level
            ? Math.min(Math.max(a.x, b.x), Math.max(c.x, d.x)) -
              Math.max(Math.min(a.x, b.x), Math.min(c.x, d.x))
            : upright
              ? Math.min(Math.max(a.y, b.y), Math.max(c.y, d.y)) -
                Math.max(Math.min(a.y, b.y), Math.min(c.y, d.y))
              : -1;
          if (shared > NEAR)
            faults.push(
              `wires ${plan.nets[one.net].name} and ${plan.nets[other.net].name} lie on each other`,
            );
        }
      }
    }
  });
  for (const { net, from, to } of plan.lines) {
    const pieces = nets.find((other) => other.net === net)?.pieces ?? [];
    const lead = boxes[from].leads[boxes[from].box.leads.indexOf(net)];
    const reached = reach(lead, pieces);
    const legs = boxes[to].legs.filter((_, at) => boxes[to].box.legs[at] === net);
    const arrives = legs.some((leg) =>
      reached.some(([a, b]) => same(a, leg) || same(b, leg) || onPiece(leg, [a, b])),
    );
    if (!arrives) faults.push(`wire ${plan.nets[net].name} does not reach ${nameOf(boxes[to])}`);
  }
  for (const placedBox of boxes) {
    const { box, legs, x } = placedBox;
    for (const [at, leg] of legs.entries()) {
      const pieces = nets.find(({ net }) => net === box.legs[at])?.pieces ?? [];
      const ends = pieces.some(([a, b]) => same(a, leg) || same(b, leg) || onPiece(leg, [a, b]));
      if (!ends) faults.push(`a leg of ${nameOf(placedBox)} ends in the air`);
      if (Math.abs(leg.x - x) > NEAR) faults.push(`a leg of ${nameOf(placedBox)} is not at its edge`);
    }
  }
  // Columns: what settles at one tick stands under each other, before all that settles later.
  const inputsAndInverters = boxes.filter(({ box }) => box.kind === 'input' || box.kind === 'inverter');
  const columns = new Map<number, { left: number; right: number }>();
  for (const { box, x, width } of inputsAndInverters) {
    const known = columns.get(box.tick) ?? { left: x, right: x + width };
    columns.set(box.tick, { left: Math.min(known.left, x), right: Math.max(known.right, x + width) });
  }
  const sorted = [...columns].sort((a, b) => a[0] - b[0]);
  sorted.slice(1).forEach(([tick, { left }], at) => {
    if (left <= sorted[at][1].right)
      faults.push(`the column of tick ${tick} does not stand behind that of tick ${sorted[at][0]}`);
  });
  const lastColumn = sorted.at(-1)?.[1].right ?? 0;
  for (const one of boxes)
    if (one.box.kind === 'output' && one.x <= lastColumn)
      faults.push(`${nameOf(one)} does not stand on the right`);
  return [...new Set(faults)];
}
