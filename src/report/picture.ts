// The frame of every picture: the root element with its style, a title and a description, and the legend that explains
// the symbols.

import { PICTURE_STYLE } from './picture-style.ts';
import { coin, diamond, number, text } from './schematic-svg.ts';
import { escaped, widthOf } from './svg-text.ts';

export const MARGIN = 20;

export interface Frame {
  readonly width: number;
  readonly height: number;
  readonly title: string;
  readonly description: string;
  readonly body: string;
}

/** A picture as a file of its own. */
export function pictureFile(frame: Frame): string {
  return `<?xml version="1.0" encoding="UTF-8"?>\n${pictureElement(frame, 'tw-', true)}\n`;
}

/** A picture as an element; inside a page the style stands in the page. */
export function pictureElement(
  { width, height, title, description, body }: Frame,
  prefix: string,
  styled = false,
  kind = '',
): string {
  const [w, h] = [Math.ceil(width), Math.ceil(height)];
  const style = styled ? `<style>${PICTURE_STYLE}</style>\n` : '';
  return [
    `<svg xmlns="http://www.w3.org/2000/svg" class="tw${kind}" width="${w}" height="${h}" viewBox="0 0 ${w} ${h}" role="${kind === '' ? 'img' : 'group'}" aria-labelledby="${prefix}title ${prefix}description">`,
    `<title id="${prefix}title">${escaped(title)}</title>`,
    `<desc id="${prefix}description">${escaped(description)}</desc>`,
    `${style}<rect class="paper" width="${w}" height="${h}"/>`,
    body,
    '</svg>',
  ].join('\n');
}

interface Entry {
  readonly sign: string;
  readonly words: string;
}

const SIGN = 46;
const ROW = 24;

/** Signs in rows with their words; `width` is what there is, but never less than the widest entry. */
export function legend(
  width: number,
  logic: 'or' | 'and',
  shown: {
    readonly low: boolean;
    readonly slow: boolean;
    readonly outlets: boolean;
    readonly conflicts: boolean;
    readonly plain: boolean;
  },
): { readonly width: number; readonly height: number; readonly body: string } {
  const wire = (rail: string): string =>
    `<g class="${rail}"><path class="wire" d="M2 0H22"/>${coin({ x: 32, y: 0 }, rail === '' ? null : rail === 'high' ? 'high' : 'low', false)}</g>`;
  const inverter = `<rect class="comb" x="10" y="-9" width="4" height="18" rx="1.5"/><path class="line" d="M2 -5H10M2 5H10M14 0H18"/>${diamond({ x: 28, y: 0 }, 9, null, false)}`;
  const tied =
    '<g class="high"><path class="wire" d="M4 -6H20V6M4 6H38"/><circle class="dot" cx="20" cy="6" r="2.6"/></g>';
  const separate =
    '<path class="line" d="M6 0H20"/><rect class="body" x="20" y="-9" width="4" height="18"/><path class="wire" d="M24 -5H38M24 5H38"/>';
  const rule =
    logic === 'or'
      ? 'inverter: 1 only while all legs at its comb are 0'
      : 'inverter: 0 only while all legs at its comb are 1';
  const entries: Entry[] = [
    { sign: inverter, words: rule },
    { sign: tied, words: `dot: wires tied, ${logic === 'or' ? 'OR' : 'AND'}, for nothing` },
    { sign: wire('high'), words: 'active-high: 1 when its signal is true' },
    ...(shown.low ? [{ sign: wire('low'), words: 'active-low: 0 when its signal is true' }] : []),
    ...(shown.plain
      ? [{ sign: '<path class="wire" d="M2 0H38"/>', words: 'thin: a level, no signal of its own' }]
      : []),
    ...(shown.outlets ? [{ sign: separate, words: 'separate leads of one driver, not tied' }] : []),
    ...(shown.slow
      ? [
          {
            sign: '<path class="slow" d="M6 0H36"/><path class="wire" d="M4 0H38"/>',
            words: 'a slowest path',
          },
        ]
      : []),
    ...(shown.conflicts
      ? [{ sign: '<circle class="alarm" cx="20" cy="0" r="8"/>', words: 'conflict, told below' }]
      : []),
  ];
  const widths = entries.map(({ words }) => SIGN + widthOf(words, 11) + 18);
  const room = Math.max(width, ...widths);
  let [x, y] = [0, ROW / 2];
  const parts = entries.map(({ sign, words }, at) => {
    if (x > 0 && x + widths[at] > room) [x, y] = [0, y + ROW];
    const place = `<g transform="translate(${number(x)} ${number(y)})">${sign}${text(SIGN, 4, words, 'note')}</g>`;
    x += widths[at];
    return place;
  });
  return { width: room, height: y + ROW / 2, body: `<g class="legend">${parts.join('\n')}</g>` };
}
