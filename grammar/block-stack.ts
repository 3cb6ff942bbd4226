// The loops that are open while a text is split: each takes one statement, or all up to its closing brace.

import type { IToken } from 'chevrotain';
import type { LoopHead, ReadHead } from './loop-head.ts';
import { LOOP_DEPTH_LIMIT } from './operators.ts';
import type { Place, SyntaxFault } from './syntax.ts';
import { fault } from './wording.ts';

/** The tokens of one statement, without line ends. With faults in it, it is not worth parsing. */
export interface StatementTokens {
  readonly tokens: IToken[];
  readonly faults: SyntaxFault[];
}

/** A loop and what it stands over; `head` is null when the head has a fault. */
export interface LoopTokens {
  readonly head: LoopHead | null;
  readonly body: SplitItem[];
  readonly faults: SyntaxFault[];
}

export type SplitItem = StatementTokens | LoopTokens;

interface Frame {
  readonly loop: LoopTokens;
  readonly block: boolean;
  readonly at: Place;
}

export class BlockStack {
  /** What stands outside of all loops. */
  readonly items: SplitItem[] = [];
  private readonly frames: Frame[] = [];

  /** Whether a `}` could close something. */
  get inBlock(): boolean {
    return this.frames.some((frame) => frame.block);
  }

  open({ head, fault: headFault, over, at }: ReadHead): void {
    const faults = headFault === null ? [] : [headFault];
    const loop: LoopTokens = { head, body: [], faults };
    // Deeper than the limit the loops are not nested into each other, so that later stages may recurse.
    const tooDeep = this.frames.length >= LOOP_DEPTH_LIMIT;
    if (this.frames.length === LOOP_DEPTH_LIMIT) faults.push(tooDeepLoopFault(at));
    if (tooDeep) this.items.push(loop);
    else this.body().push(loop);
    if (over === 'nothing') this.endSingle();
    else this.frames.push({ loop, block: over === 'block', at });
  }

  /** Puts a statement where it belongs; loops over one statement have it now. */
  add(statement: StatementTokens): void {
    this.body().push(statement);
    this.endSingle();
  }

  /** A `;` or `}` ends loops over one statement that have none. */
  endEmpty(): void {
    const frame = this.frames.at(-1);
    if (frame === undefined || frame.block) return;
    frame.loop.faults.push(emptyFault(frame.at));
    this.endSingle();
  }

  /** A `}`; only when there is a block. */
  closeBlock(): void {
    this.endEmpty();
    this.frames.pop();
    this.endSingle();
  }

  /** The end of the text. */
  finish(): void {
    this.endEmpty();
    for (const { loop, block, at } of this.frames) {
      if (block) loop.faults.push(unclosedBlockFault(at));
    }
  }

  private body(): SplitItem[] {
    return this.frames.at(-1)?.loop.body ?? this.items;
  }

  private endSingle(): void {
    while (this.frames.at(-1)?.block === false) this.frames.pop();
  }
}

function emptyFault(at: Place): SyntaxFault {
  return fault(
    'wrong-loop',
    at,
    'no statement stands behind the head of this loop',
    'write "for i in 0..7: statement"',
  );
}

function unclosedBlockFault(at: Place): SyntaxFault {
  return fault(
    'missing-bracket',
    at,
    'the block of this loop is never closed',
    'write "}" behind its statements',
  );
}

function tooDeepLoopFault(at: Place): SyntaxFault {
  return fault(
    'nesting-too-deep',
    at,
    `loops nest deeper than ${LOOP_DEPTH_LIMIT} levels`,
    'count further in one loop and work the indices out with / and %',
  );
}
