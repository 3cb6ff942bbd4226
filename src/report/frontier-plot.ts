// The trade between ticks and parts as a picture: one mark for each point of the frontier, joined by stairs, with the
// answer, what the equations cost as written, and the bound below which nothing settles.

import { type Frame, MARGIN } from './picture.ts';
import type { Point, Result } from './result.ts';
import { number, text } from './schematic-svg.ts';
import { widthOf } from './svg-text.ts';

const WIDE = 520;
const HIGH = 300;
const LEFT = 64;
/** From this ratio of most to fewest parts on, heights grow with the logarithm. */
const LOGARITHMIC = 6;

interface Scale {
  readonly x: (ticks: number) => number;
  readonly y: (parts: number) => number;
  readonly marks: readonly number[];
}

/** Round numbers of parts between the two. */
function roundMarks(low: number, high: number, logarithmic: boolean): number[] {
  const steps = logarithmic ? [1, 2, 5] : [1, 2, 5, 10];
  const marks: number[] = [];
  if (logarithmic) {
    for (let power = 1; power <= high * 2; power *= 10) for (const step of steps) marks.push(power * step);
  } else {
    const rough = Math.max(1, (high - low) / 5);
    const power = 10 ** Math.floor(Math.log10(rough));
    const step = power * (steps.find((value) => value * power >= rough) ?? 10);
    for (let mark = Math.floor(low / step) * step; mark <= high + step; mark += step) marks.push(mark);
  }
  return marks.filter((mark) => mark >= low && mark <= high);
}

function scaleOf(result: Result): Scale {
  const spots = [...result.points, ...(result.asWritten === null ? [] : [result.asWritten])];
  const ticks = [...spots.map((spot) => spot.ticks), result.fastest?.ticks ?? 0];
  const parts = spots.map((spot) => spot.parts);
  const [first, last] = [Math.max(0, Math.min(...ticks) - 1), Math.max(...ticks) + 1];
  const [low, high] = [Math.max(0, Math.min(...parts) * 0.85), Math.max(1, Math.max(...parts) * 1.1)];
  const logarithmic = low > 0 && high / low > LOGARITHMIC;
  const height = (value: number): number => (logarithmic ? Math.log(value) : value);
  const span = Math.max(1e-9, height(high) - height(low));
  return {
    x: (value) => LEFT + ((value - first) / (last - first)) * (WIDE - LEFT),
    y: (value) => HIGH - ((height(value) - height(low)) / span) * HIGH,
    marks: roundMarks(low, high, logarithmic),
  };
}

const line = (kind: string, d: string): string => `<path class="${kind}" d="${d}"/>`;

function mark({ ticks, parts, partsProved }: Point, { x, y }: Scale, isAnswer: boolean): string {
  const [cx, cy] = [x(ticks), y(parts)];
  const square = `M${number(cx - 5)} ${number(cy - 5)}h10v10h-10Z`;
  const ring = isAnswer ? `<circle class="ring" cx="${number(cx)}" cy="${number(cy)}" r="11"/>` : '';
  const said = `${ticks} ticks, ${parts} parts, ${partsProved ? 'proved fewest' : 'best found'}${isAnswer ? ', the answer' : ''}`;
  return `<g class="point">${ring}${line(partsProved ? 'comb' : 'body', square)}${text(cx + 12, cy - 8, String(parts))}<title>${said}</title></g>`;
}

/** The picture; null when there is nothing to plot. */
export function frontierPlot(result: Result): Frame | null {
  const { points, asWritten, fastest } = result;
  if (points.length === 0) return null;
  const scale = scaleOf(result);
  const { x, y } = scale;
  const answer = result.chosen ?? 0;
  const body: string[] = [];
  for (const parts of scale.marks) {
    body.push(
      line('grid', `M${LEFT} ${number(y(parts))}H${WIDE}`),
      text(LEFT - 8, y(parts) + 4, String(parts), 'note', 'end'),
    );
  }
  const ticks = new Set([
    ...points.map((point) => point.ticks),
    ...(asWritten === null ? [] : [asWritten.ticks]),
  ]);
  let free = Number.NEGATIVE_INFINITY;
  for (const tick of [...ticks].sort((a, b) => a - b)) {
    body.push(line('axis', `M${number(x(tick))} ${HIGH}v5`));
    if (x(tick) - free < 22) continue;
    free = x(tick);
    body.push(text(x(tick), HIGH + 19, String(tick), 'note', 'middle'));
  }
  body.push(line('axis', `M${LEFT} 0V${HIGH}H${WIDE}`));
  body.push(text((LEFT + WIDE) / 2, HIGH + 38, 'ticks', 'note', 'middle'), text(0, 10, 'parts', 'note'));
  if (fastest !== null) {
    const at = x(fastest.ticks) - 10;
    const hatches = Array.from({ length: HIGH / 12 }, (_, n) => `M${number(at)} ${n * 12 + 4}l-7 8`).join('');
    const said = `nothing settles before tick ${fastest.ticks}${fastest.proved ? ', proved' : ''}`;
    body.push(
      `<g class="bound">${line('line', `M${number(at)} 0V${HIGH}${hatches}`)}<title>${said}</title></g>`,
    );
  }
  const sorted = [...points].sort((a, b) => a.ticks - b.ticks);
  const stairs = sorted.map(
    (point, n) =>
      `${n === 0 ? 'M' : 'H'}${number(x(point.ticks))}${n === 0 ? ' ' : 'V'}${number(y(point.parts))}`,
  );
  body.push(line('wire', stairs.join('')));
  if (asWritten !== null) {
    const [cx, cy] = [x(asWritten.ticks), y(asWritten.parts)];
    body.push(
      `<g class="point">${line('line', `M${number(cx - 5)} ${number(cy - 5)}l10 10m0 -10l-10 10`)}${text(cx - 10, cy + 4, String(asWritten.parts), '', 'end')}<title>as written: ${asWritten.ticks} ticks, ${asWritten.parts} parts</title></g>`,
    );
  }
  body.push(...sorted.map((point) => mark(point, scale, points.indexOf(point) === answer)));
  const notes = [
    { sign: line('comb', 'M10 -5h10v10h-10Z'), words: 'found, proved fewest parts' },
    { sign: line('body', 'M10 -5h10v10h-10Z'), words: 'found, best known here' },
    { sign: `<circle class="ring" cx="15" cy="0" r="8"/>`, words: 'the answer' },
    ...(asWritten === null ? [] : [{ sign: line('line', 'M10 -5l10 10m0 -10l-10 10'), words: 'as written' }]),
    ...(fastest === null
      ? []
      : [
          {
            sign: line('line', 'M18 -8V8M18 -8l-6 6M18 0l-6 6'),
            words: fastest.proved ? 'nothing settles further left, proved' : 'nothing settles further left',
          },
        ]),
  ];
  const foot = HIGH + 64;
  notes.forEach(({ sign, words }, at) => {
    body.push(`<g transform="translate(${LEFT} ${foot + at * 20})">${sign}${text(32, 4, words, 'note')}</g>`);
  });
  const title = `Parts by ticks, target ${result.target}`;
  const description = [
    ...sorted.map((point) => `${point.ticks} ticks: ${point.parts} parts`),
    ...(asWritten === null ? [] : [`as written ${asWritten.ticks} ticks, ${asWritten.parts} parts`]),
  ].join('; ');
  return {
    width: Math.max(WIDE + 60, widthOf(title, 15)) + 2 * MARGIN,
    height: foot + notes.length * 20 + 34 + 2 * MARGIN,
    title,
    description,
    body: `<g transform="translate(${MARGIN} ${MARGIN})">${text(0, 14, title, 'head')}<g transform="translate(0 44)">${body.join('\n')}</g></g>`,
  };
}
