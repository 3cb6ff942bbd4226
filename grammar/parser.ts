// The parser of one statement. It is pure: it knows how statements are written and nothing of what they mean. Tokens
// arrive split into statements with their brackets matched (split-statements.ts), so a fault ends one statement and
// the next is read afresh.
//
// No rule calls itself. An expression is read as operands with signs between them; a bracket that opens is something
// that may stand before an operand, like a NOT, and one that closes may stand behind it. The tree grows beside the
// rules, in tree-builder.ts. For people the same language is written down with its levels in equations.ebnf, and a
// test holds the two together.

import {
  EmbeddedActionsParser,
  type IParserErrorMessageProvider,
  type IRecognitionException,
  type IToken,
} from 'chevrotain';
import { writtenName } from './bit-names.ts';
import { type RailWord, TICK_LIMIT } from './operators.ts';
import type { DeclaredName, Node, Place, PlainStatement, SyntaxFault } from './syntax.ts';
import * as t from './tokens.ts';
import { TreeBuilder } from './tree-builder.ts';
import { attributeWordFault, placeOf, tickFault, twiceFault } from './wording.ts';

/** explain-stop.ts finds the words from the place of a fault; the toolkit need not make any. */
const SILENT: IParserErrorMessageProvider = {
  buildMismatchTokenMessage: () => '',
  buildNotAllInputParsedMessage: () => '',
  buildNoViableAltMessage: () => '',
  buildEarlyExitMessage: () => '',
};

export class StatementParser extends EmbeddedActionsParser {
  /** Faults that the grammar itself lets pass, found while the tree is built. */
  private faults: SyntaxFault[] = [];

  /** `skipValidations` leaves out the check of the grammar itself, which tests make and users need not wait for. */
  constructor(skipValidations: boolean) {
    super(t.PARSED, { maxLookahead: 1, skipValidations, errorMessageProvider: SILENT });
    this.performSelfAnalysis();
  }

  /** Reads one statement; when `stop` says where the grammar does not hold, `value` is of no use. */
  read(tokens: IToken[]): {
    value: PlainStatement;
    stop: IRecognitionException | null;
    faults: SyntaxFault[];
  } {
    this.input = tokens;
    this.faults = [];
    const value = this.statement();
    return { value, stop: this.errors[0] ?? null, faults: this.faults };
  }

  private readonly statement = this.RULE(
    'statement',
    (): PlainStatement =>
      this.OR([
        { ALT: () => this.SUBRULE(this.definition) },
        { ALT: () => this.SUBRULE(this.declaration) },
        { ALT: () => this.SUBRULE(this.constraint) },
      ]),
  );

  private readonly definition = this.RULE('definition', (): PlainStatement => {
    const name = this.CONSUME(t.Name);
    this.CONSUME(t.Equals);
    const expression = this.SUBRULE(this.expression);
    return this.ACTION(() => {
      const { start, end } = expression;
      return {
        kind: 'definition',
        ...writtenName(name),
        nameAt: placeOf(name),
        list: null,
        sides: [{ expression, table: null, start, end }],
        extent: { start: name.startOffset, end },
        whole: true,
      };
    });
  });

  private readonly constraint = this.RULE('constraint', (): PlainStatement => {
    const word = this.CONSUME(t.Never);
    const expression = this.SUBRULE(this.expression);
    return this.ACTION(() => {
      const at = { start: word.startOffset, end: expression.end };
      return { kind: 'never', expression, at, whole: true };
    });
  });

  private readonly declaration = this.RULE('declaration', (): PlainStatement => {
    const word = this.OR([{ ALT: () => this.CONSUME(t.Input) }, { ALT: () => this.CONSUME(t.Output) }]);
    const kind = word.tokenType === t.Input ? 'input' : 'output';
    const names = [this.SUBRULE(this.declared, { ARGS: [kind] })];
    this.MANY(() => {
      this.CONSUME(t.Comma);
      names.push(this.SUBRULE2(this.declared, { ARGS: [kind] }));
    });
    return this.ACTION(() => {
      const extent: Place = { start: word.startOffset, end: names.at(-1)!.end };
      return { kind, names, extent, whole: true };
    });
  });

  private readonly declared = this.RULE('declared', (kind: 'input' | 'output'): DeclaredName => {
    const name = this.CONSUME(t.Name);
    const rails: IToken[] = [];
    const words: IToken[] = [];
    const numbers: IToken[] = [];
    this.MANY(() => {
      this.OR([
        { ALT: () => rails.push(this.CONSUME(t.RailName)) },
        {
          ALT: () => {
            words.push(this.OR2([{ ALT: () => this.CONSUME(t.At) }, { ALT: () => this.CONSUME(t.By) }]));
            numbers.push(this.CONSUME(t.Digits));
          },
        },
      ]);
    });
    return this.ACTION(() => {
      this.checkAttributes(kind, rails, words);
      const rail = rails.length > 0 ? (rails[0]!.image.toLowerCase() as RailWord) : null;
      const tick = numbers.length > 0 ? this.tickOf(numbers[0]!) : null;
      return { ...writtenName(name), ...placeOf(name), rail, tick };
    });
  });

  private readonly expression = this.RULE('expression', (): Node => {
    const tree = new TreeBuilder(this.faults);
    this.SUBRULE(this.operand, { ARGS: [tree] });
    this.MANY(() => {
      const between = this.OPTION(() =>
        this.OR([{ ALT: () => this.CONSUME(t.Infix) }, { ALT: () => this.CONSUME(t.Comma) }]),
      );
      this.ACTION(() => {
        if (between?.tokenType === t.Comma) tree.comma(between);
        else tree.sign(between ?? null, this.LA(1).startOffset);
      });
      this.SUBRULE2(this.operand, { ARGS: [tree] });
    });
    return this.ACTION(() => tree.finish());
  });

  private readonly operand = this.RULE('operand', (tree: TreeBuilder): void => {
    this.MANY(() => {
      this.OR([
        {
          ALT: () => {
            const sign = this.CONSUME(t.Prefix);
            this.ACTION(() => tree.prefix(sign));
          },
        },
        {
          ALT: () => {
            const word = this.CONSUME(t.FunctionWord);
            this.CONSUME(t.Open);
            this.ACTION(() => tree.open(word));
          },
        },
        {
          ALT: () => {
            this.CONSUME2(t.Open);
            this.ACTION(() => tree.open(null));
          },
        },
      ]);
    });
    this.OR2([
      {
        ALT: () => {
          const name = this.CONSUME(t.Name);
          this.ACTION(() => tree.name(name));
        },
      },
      {
        ALT: () => {
          const constant = this.CONSUME(t.Digits);
          this.ACTION(() => tree.constant(constant));
        },
      },
      {
        ALT: () => {
          const constant = this.CONSUME(t.Truth);
          this.ACTION(() => tree.constant(constant));
        },
      },
    ]);
    this.MANY2(() => {
      this.OR3([
        {
          ALT: () => {
            const sign = this.CONSUME(t.Postfix);
            this.ACTION(() => tree.postfix(sign));
          },
        },
        {
          ALT: () => {
            const bracket = this.CONSUME(t.Close);
            this.ACTION(() => tree.close(bracket));
          },
        },
      ]);
    });
  });

  private checkAttributes(
    kind: 'input' | 'output',
    rails: readonly IToken[],
    words: readonly IToken[],
  ): void {
    const wanted = kind === 'input' ? t.At : t.By;
    for (const word of words) {
      if (word.tokenType !== wanted) this.faults.push(attributeWordFault(kind, word));
    }
    if (rails.length > 1) this.faults.push(twiceFault('rail', rails[0]!, rails[1]!));
    if (words.length > 1) this.faults.push(twiceFault('tick', words[0]!, words[1]!));
  }

  private tickOf(token: IToken): number {
    const value = /^[0-9]+$/.test(token.image) ? Number(token.image) : Number.NaN;
    if (value <= TICK_LIMIT) return value;
    this.faults.push(tickFault(token));
    return 0;
  }
}
