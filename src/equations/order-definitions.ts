// The order in which definitions can be evaluated, and the circles that make it impossible.
//
// A walk in depth over the definitions in text order, what a definition needs before itself. A text that is already in
// order stays as it is; otherwise a definition moves up to just before its first use. A definition met again while it
// is still being walked closes a circle. The walk keeps its own stack: a chain of a hundred thousand definitions is no
// deeper for the machine than one. Cost: one step for each mention.

export interface Ordering {
  /** Every index once, what is needed first. Not usable when there are circles. */
  readonly order: readonly number[];
  /** Each circle as indices, every one needs the next and the last needs the first; no index in two of them. */
  readonly circles: readonly (readonly number[])[];
}

/** `needs[i]` lists what definition `i` mentions, as indices of definitions. */
export function orderDefinitions(needs: readonly (readonly number[])[]): Ordering {
  const UNSEEN = 0;
  const WALKING = 1;
  const DONE = 2;
  const state = new Uint8Array(needs.length);
  const order: number[] = [];
  const circles: number[][] = [];
  const inCircle = new Set<number>();
  const path: number[] = [];
  const nextNeed: number[] = [];

  for (let root = 0; root < needs.length; root++) {
    if (state[root] !== UNSEEN) continue;
    path.push(root);
    nextNeed.push(0);
    state[root] = WALKING;
    while (path.length > 0) {
      const top = path.length - 1;
      const current = path[top]!;
      const need = needs[current]![nextNeed[top]!++];
      if (need === undefined) {
        state[current] = DONE;
        order.push(current);
        path.pop();
        nextNeed.pop();
      } else if (state[need] === UNSEEN) {
        state[need] = WALKING;
        path.push(need);
        nextNeed.push(0);
      } else if (state[need] === WALKING && !inCircle.has(need) && !inCircle.has(current)) {
        const circle = path.slice(path.lastIndexOf(need));
        if (circle.some((index) => inCircle.has(index))) continue;
        for (const index of circle) inCircle.add(index);
        circles.push(circle);
      }
    }
  }
  return { order, circles };
}
