// The lesson on a screen, in at most forty lines: for somebody who has never heard of active-low.

import type { Lesson, RailChoice } from '../polarity/lesson.ts';
import type { Standing } from '../polarity/ways-out.ts';
import type { Painter } from './painter.ts';
import { counted, prose, WIDTH } from './paragraph.ts';

/** Longest lesson, with the line of its title. */
export const MOST_LINES = 40;
const SHOWN_ROWS = 8;

/** Ends with a line feed. */
export function lessonText(lesson: Lesson, painter: Painter): string {
  const { signals, logic } = lesson;
  const [meant, other] = [wordsOf(lesson, true), wordsOf(lesson, false)];
  const [any, joinWord, otherWord] =
    logic === 'or' ? ['while any of them is 1', 'OR', 'AND'] : ['only while all of them are 1', 'AND', 'OR'];
  const named = signals.map(({ name, rail }) => `${name}, active-${rail}`).join(', and ');
  const lines = [
    ...prose(`What happens when you join ${named}`, '').map((line) => painter.strong(line)),
    '',
    ...prose(
      `A wire knows nothing but its level, 0 or 1. Active-high: level 1 means that the signal is true. Active-low: level 0 means that it is true. Joined wires are 1 ${any}: they are ${joinWord} of levels, whatever the levels stand for.`,
      '',
    ),
    '',
    ...levelTable(lesson, painter),
    ...whyWrong(lesson),
    '',
    ...prose(`The same for every choice of rails; ! marks where the join is not ${meant}:`, ''),
    ...choiceTable(lesson.choices, lesson, painter),
    '',
    ...prose(
      `De Morgan: ${deMorgan(lesson)}. So active-low wires joined are the active-low wire of ${other}: 0 only when that is true. They are ${otherWord}, and not ${joinWord}.`,
      '',
    ),
  ];
  const { waysOut } = lesson;
  if (waysOut.length === 0) {
    lines.push(
      ...prose(`All of these wires are active-high: their join is ${meant}, and nothing needs doing.`, ''),
    );
    return `${lines.join('\n')}\n`;
  }
  lines.push('', `Ways out, to get ${meant} after all:`);
  const ways = waysOut.map(({ what, stands, remade }) => {
    const end = stands ?? remade;
    return { cost: costOf(end), text: `${what}: ${(end?.lines ?? []).join('; ')}` };
  });
  const stands = lesson.upstream?.stands;
  if (stands) {
    const low = signals.filter(({ rail }) => rail === 'low').map(({ name }) => name);
    const where = `take ${low.join(', ')} where ${low.length > 1 ? 'they are' : 'it is'} still active-high, if there is such a wire`;
    ways.push({ cost: costOf(stands), text: `${where}: ${stands.lines.join('; ')}` });
  }
  const { reader } = lesson;
  if (reader !== null) {
    const text = `keep them apart and let what reads them absorb both: ${reader.words}, which takes ${costOf(reader.repaired)} behind a mended join`;
    ways.push({ cost: costOf(reader.absorbed), text });
  }
  const set = ways.flatMap(({ cost, text }, n) =>
    prose(text, `${String(n + 1).padStart(3)}  ${cost.padEnd(18)}`),
  );
  lines.push(...set.slice(0, MOST_LINES - lines.length));
  return `${lines.join('\n')}\n`;
}

/** The signals with the word of the join between them, or with the other one. */
function wordsOf({ signals, logic }: Lesson, isJoin: boolean): string {
  return signals.map(({ name }) => name).join((logic === 'or') === isJoin ? ' OR ' : ' AND ');
}

/** A text, or something shorter in its place. */
function fitting(text: string, short: string, room: number): string {
  return text.length > room ? short : text;
}

/** The first row that is wrong, in words. */
function whyWrong({ rows, signals, ...lesson }: Lesson): string[] {
  const row = rows.find(({ joined, meant }) => joined === 1 && meant === 0);
  if (row === undefined) return [];
  const names = signals
    .filter(({ rail }, i) => rail === 'low' && row.values[i] === 0)
    .map(({ name }) => name);
  const [are, their, wires] = names.length > 1 ? ['are', 'their', 'wires are'] : ['is', 'its', 'wire is'];
  const meant = wordsOf({ rows, signals, ...lesson }, true);
  const text = `Look at the first wrong row: ${names.join(' and ')} ${are} false, so ${their} active-low ${wires} 1, and that makes the join 1, as if ${meant} were true.`;
  return prose(text, '  ');
}

function costOf(standing: Standing | null): string {
  return standing === null ? '' : `${counted(standing.ticks, 'tick')}, ${counted(standing.parts, 'part')}`;
}

/** Signals, levels, join and wish side by side. */
function levelTable(lesson: Lesson, painter: Painter): string[] {
  const { signals, rows } = lesson;
  const meant = wordsOf(lesson, true);
  const names = signals.map(({ name }) => name);
  const width = Math.max(6, ...names.map((name) => name.length));
  const cells = (values: readonly (string | number)[]): string =>
    values.map((value) => String(value).padEnd(width)).join(' ');
  const rails = signals.map(({ rail }) => `(${rail})`);
  const lead = `  ${cells(names)} | ${cells(names)} | join | `;
  const head = lead + fitting(meant, 'meant', WIDTH - lead.length);
  const under = `  ${cells(names.map(() => 'true?'))} | ${cells(rails)} |      |`;
  const wrong = rows.filter(({ joined, meant: wanted }) => joined !== wanted);
  const shown = rows.length <= SHOWN_ROWS ? rows : [...wrong.slice(0, SHOWN_ROWS - 1), rows[rows.length - 1]];
  return [
    painter.faint(`  ${'what is the case'.padEnd(names.length * (width + 1) - 1)} | levels of the wires`),
    head,
    under,
    ...shown.map(({ values, levels, joined, meant: wanted }) => {
      const says = values.map((value) => (value === 1 ? 'yes' : 'no'));
      const line = `  ${cells(says)} | ${cells(levels)} |  ${joined}   |  ${wanted}`;
      const mark = `   <- wrong: it says ${joined === 1 ? 'yes' : 'no'}`;
      return joined === wanted ? line : painter.bad(line + fitting(mark, '   <- wrong', WIDTH - line.length));
    }),
  ];
}

/** One line a choice of rails. */
function choiceTable(choices: readonly RailChoice[], lesson: Lesson, painter: Painter): string[] {
  const { signals, rows, logic } = lesson;
  const other = wordsOf(lesson, false);
  const widths = signals.map(({ name }) => Math.max(4, name.length));
  const tooLong = rows.length > SHOWN_ROWS;
  const verdict = ({ comesTo, rails }: RailChoice, room: number): string => {
    const join = logic === 'or' ? 'OR' : 'AND';
    if (comesTo === 'meant') return `the ${join}: right`;
    if (comesTo === 'other')
      return `active-low ${fitting(other, logic === 'or' ? 'AND of all' : 'OR of all', room - 11)}`;
    const parts = signals.map(({ name }, i) => (rails[i] === 'high' ? name : `NOT ${name}`));
    return `neither: ${fitting(parts.join(` ${join} `), 'a mixture', room - 9)}`;
  };
  const head = signals.map(({ name }, i) => name.padEnd(widths[i])).join(' ');
  const patterns = rows.map(({ values }) => values.join(''));
  const column = tooLong
    ? ''
    : ` | ${patterns.map((pattern) => pattern.padEnd(pattern.length + 1)).join('')}`;
  return [
    painter.faint(`  ${head}${column} | the join is`),
    ...choices.map((choice) => {
      const rails = choice.rails.map((rail, i) => rail.padEnd(widths[i])).join(' ');
      const joined = choice.joined.map((level, n) => {
        const text = `${level}${level === rows[n].meant ? '' : '!'}`;
        return text.padEnd(patterns[n].length + 1);
      });
      const lead = `  ${rails}${tooLong ? '' : ` | ${joined.join('')}`} | `;
      const line = lead + verdict(choice, WIDTH - lead.length);
      return choice.isAsked ? painter.strong(line) : line;
    }),
  ];
}

function deMorgan({ signals, logic }: Lesson): string {
  const names = signals.map(({ name }) => name);
  const [inner, outer] = logic === 'or' ? ['OR', 'AND'] : ['AND', 'OR'];
  return `${names.map((name) => `NOT ${name}`).join(` ${inner} `)} = NOT (${names.join(` ${outer} `)})`;
}
