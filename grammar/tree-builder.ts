// Builds the tree of one expression while the parser reads it from left to right. Open brackets wait on a stack of
// this builder and not on that of the machine, so no text can exhaust it. The splitter has matched the brackets and
// limited their depth before.

import type { IToken } from 'chevrotain';
import { rangeFault, writtenName } from './bit-names.ts';
import { foldOperators, JUXTAPOSITION, type Sign } from './fold-operators.ts';
import { CONSTANTS, DEPTH_LIMIT, INFIX_BY_SPELLING } from './operators.ts';
import { depthOf, type Node, type SyntaxFault } from './syntax.ts';
import { endOf } from './tokens.ts';
import { constantBesideWarning, constantFault, outsideCommaFault, placeOf, tooDeepFault } from './wording.ts';

/** What is read between two brackets, or outside all of them. */
interface Group {
  /** The name of the function whose arguments these are, null for plain brackets. */
  readonly word: IToken | null;
  /** Arguments before the last comma. */
  readonly args: Node[];
  /** Operands and signs since then. */
  operands: Node[];
  signs: Sign[];
  /** NOT signs before the operand that is being read, and that operand without them. */
  prefixes: IToken[];
  operand: Node | null;
}

export class TreeBuilder {
  private readonly faults: SyntaxFault[];
  private readonly outer: Group[] = [];
  private group = newGroup(null);

  /** Faults of the text that the grammar lets pass are added to `faults`. */
  constructor(faults: SyntaxFault[]) {
    this.faults = faults;
  }

  prefix(sign: IToken): void {
    this.group.prefixes.push(sign);
  }

  open(word: IToken | null): void {
    this.outer.push(this.group);
    this.group = newGroup(word);
  }

  name(token: IToken): void {
    const { name, first, last } = writtenName(token);
    const place = placeOf(token);
    if (last !== null) this.faults.push(rangeFault(token));
    this.group.operand =
      first === null ? { kind: 'name', name, ...place } : { kind: 'name', name, index: first, ...place };
  }

  constant(token: IToken): void {
    const value = CONSTANTS.get(token.image.toLowerCase());
    if (value === undefined) this.faults.push(constantFault(token));
    else this.checkBeside(token);
    this.group.operand = { kind: 'constant', value: value ?? 0, ...placeOf(token) };
  }

  postfix(sign: IToken): void {
    const operand = this.group.operand!;
    this.group.operand = this.notNode(operand, operand.start, endOf(sign));
  }

  close(bracket: IToken): void {
    const { word, args } = this.group;
    const inner = this.fold();
    this.group = this.outer.pop()!;
    this.group.operand = word === null ? inner : this.callNode(word, [...args, inner], endOf(bracket));
  }

  /** A sign between two operands; `sign` is null where nothing stands between them. */
  sign(sign: IToken | null, nextStart: number): void {
    this.settle();
    this.group.signs.push(
      sign === null
        ? { row: JUXTAPOSITION, at: { start: nextStart, end: nextStart } }
        : { row: INFIX_BY_SPELLING.get(sign.image.toLowerCase())!, at: placeOf(sign) },
    );
  }

  comma(comma: IToken): void {
    if (this.outer.length === 0) this.faults.push(outsideCommaFault(comma));
    this.group.args.push(this.fold());
    this.group.operands = [];
    this.group.signs = [];
  }

  /** The tree of all that was read. */
  finish(): Node {
    return this.fold();
  }

  /** Warns of a number close behind a name, which may have been a subscript. */
  private checkBeside(token: IToken): void {
    const { prefixes, signs, operands } = this.group;
    const sign = signs.at(-1);
    const before = operands.at(-1);
    const alone = sign !== undefined && sign.at.start === sign.at.end && prefixes.length === 0;
    if (alone && before?.kind === 'name' && /^[01]$/.test(token.image)) {
      this.faults.push(constantBesideWarning(before.name, before.start, token));
    }
  }

  private fold(): Node {
    this.settle();
    return foldOperators(this.group.operands, this.group.signs, this.faults);
  }

  /** The operand is complete: signs before it take effect after those behind it. */
  private settle(): void {
    const { group } = this;
    let operand = group.operand!;
    for (let index = group.prefixes.length - 1; index >= 0; index--) {
      operand = this.notNode(operand, group.prefixes[index]!.startOffset, operand.end);
    }
    if (group.prefixes.length > 0) group.prefixes = [];
    group.operands.push(operand);
    group.operand = null;
  }

  private notNode(argument: Node, start: number, end: number): Node {
    return { kind: 'not', argument, start, end, depth: this.deeper(depthOf(argument), start, end) };
  }

  private callNode(word: IToken, args: readonly Node[], end: number): Node {
    const start = word.startOffset;
    const inner = args.reduce((deepest, arg) => Math.max(deepest, depthOf(arg)), 0);
    const depth = this.deeper(inner, start, end);
    return { kind: 'call', name: word.image, nameAt: placeOf(word), args, start, end, depth };
  }

  private deeper(depth: number, start: number, end: number): number {
    if (depth === DEPTH_LIMIT) this.faults.push(tooDeepFault(start, end));
    return depth + 1;
  }
}

function newGroup(word: IToken | null): Group {
  return { word, args: [], operands: [], signs: [], prefixes: [], operand: null };
}
