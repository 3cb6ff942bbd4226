// The order of decisions: a binary heap of variables by activity, largest first, ties by smaller number so that the
// order never depends on anything but the clauses. Activities grow when a variable takes part in a conflict; instead
// of shrinking all others the increment grows, and everything is rescaled before the numbers leave the range of doubles.

const RESCALE_ABOVE = 1e100;

export class DecisionHeap {
  private heap = new Int32Array(64);
  private position = new Int32Array(64).fill(-1);
  private activity = new Float64Array(64);
  private size = 0;
  private increment = 1;

  /** Makes room for variables `0 .. count - 1`. */
  reserve(count: number): void {
    if (count <= this.position.length) return;
    const capacity = Math.max(count, this.position.length * 2);
    const heap = new Int32Array(capacity);
    heap.set(this.heap);
    this.heap = heap;
    const position = new Int32Array(capacity).fill(-1);
    position.set(this.position);
    this.position = position;
    const activity = new Float64Array(capacity);
    activity.set(this.activity);
    this.activity = activity;
  }

  get empty(): boolean {
    return this.size === 0;
  }

  /** Puts a variable back that is not in the heap; does nothing when it is. */
  insert(variable: number): void {
    if (this.position[variable] >= 0) return;
    this.heap[this.size] = variable;
    this.position[variable] = this.size;
    this.up(this.size++);
  }

  /** Takes the most active variable out. */
  pop(): number {
    const top = this.heap[0];
    this.position[top] = -1;
    const last = this.heap[--this.size];
    if (this.size > 0) {
      this.heap[0] = last;
      this.position[last] = 0;
      this.down(0);
    }
    return top;
  }

  bump(variable: number): void {
    this.activity[variable] += this.increment;
    if (this.activity[variable] > RESCALE_ABOVE) {
      for (let v = 0; v < this.activity.length; v++) this.activity[v] *= 1 / RESCALE_ABOVE;
      this.increment *= 1 / RESCALE_ABOVE;
    }
    if (this.position[variable] >= 0) this.up(this.position[variable]);
  }

  /** Everything that happened so far counts a little less from now on. */
  decay(factor: number): void {
    this.increment /= factor;
  }

  private before(a: number, b: number): boolean {
    const difference = this.activity[a] - this.activity[b];
    return difference > 0 || (difference === 0 && a < b);
  }

  private up(at: number): void {
    const variable = this.heap[at];
    while (at > 0) {
      const parent = (at - 1) >> 1;
      const other = this.heap[parent];
      if (!this.before(variable, other)) break;
      this.heap[at] = other;
      this.position[other] = at;
      at = parent;
    }
    this.heap[at] = variable;
    this.position[variable] = at;
  }

  private down(at: number): void {
    const variable = this.heap[at];
    for (;;) {
      let child = 2 * at + 1;
      if (child >= this.size) break;
      if (child + 1 < this.size && this.before(this.heap[child + 1], this.heap[child])) child++;
      const other = this.heap[child];
      if (!this.before(other, variable)) break;
      this.heap[at] = other;
      this.position[other] = at;
      at = child;
    }
    this.heap[at] = variable;
    this.position[variable] = at;
  }
}
