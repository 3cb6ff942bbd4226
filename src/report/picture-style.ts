// The colours and lines of all pictures, as one style sheet that works inside a picture file and inside a page: on a
// light and on a dark ground, and on paper. What colour says is always said by a shape, a line style or a word as well.

/** Colours by role; each is checked against its ground in tests. */
export interface Palette {
  readonly paper: string;
  /** Strip behind a column. */
  readonly band: string;
  readonly ink: string;
  readonly faint: string;
  readonly high: string;
  readonly low: string;
  readonly plain: string;
  readonly slow: string;
  readonly alarm: string;
}

export const LIGHT: Palette = {
  paper: '#fcfbf7',
  band: '#f3efe4',
  ink: '#1c222b',
  faint: '#59616c',
  high: '#9c3a00',
  low: '#00548a',
  plain: '#4c545f',
  slow: '#f6d27a',
  alarm: '#b00020',
};

export const DARK: Palette = {
  paper: '#14181e',
  band: '#1c222a',
  ink: '#ece9e1',
  faint: '#a8b0ba',
  high: '#ffb27a',
  low: '#84c7ff',
  plain: '#b4bcc6',
  slow: '#6b5618',
  alarm: '#ff8f8f',
};

export const PAPER: Palette = {
  paper: '#ffffff',
  band: '#f1f1f1',
  ink: '#000000',
  faint: '#444444',
  high: '#7a2d00',
  low: '#003f6b',
  plain: '#333333',
  slow: '#dcdcdc',
  alarm: '#8a0018',
};

/** The palette as custom properties. */
export function variables(palette: Palette): string {
  return Object.entries(palette)
    .map(([role, colour]) => `--${role}:${colour}`)
    .join(';');
}

/** Rules for the inside of a picture. */
export const PICTURE_RULES = `
.tw text{font-family:ui-monospace,"DejaVu Sans Mono",Menlo,Consolas,monospace;fill:var(--ink);font-size:12px}
.tw .paper{fill:var(--paper)}
.tw .band{fill:var(--band)}
.tw .small{font-size:9px}
.tw .note{font-size:11px;fill:var(--faint)}
.tw .head{font-size:15px;font-weight:bold}
.tw .mark{font-size:11px;font-weight:bold}
.tw .wire{fill:none;stroke:var(--plain);stroke-width:1.1;stroke-linecap:round;stroke-linejoin:round}
.tw .hit{fill:none;stroke:transparent;stroke-width:9;pointer-events:stroke}
.tw .high .wire{stroke:var(--high);stroke-width:1.5}
.tw .low .wire{stroke:var(--low);stroke-width:1.5;stroke-dasharray:6 3;stroke-linecap:butt}
.tw .dot{fill:var(--plain)}
.tw .high .dot{fill:var(--high)}
.tw .low .dot{fill:var(--low)}
.tw .slow{fill:none;stroke:var(--slow);stroke-width:8;stroke-linecap:round;stroke-linejoin:round}
.tw .ring{fill:none;stroke:var(--slow);stroke-width:7;stroke-linejoin:round}
.tw .pad{fill:transparent}
.tw .comb{fill:var(--ink)}
.tw .line{fill:none;stroke:var(--ink);stroke-width:1.4;stroke-linejoin:round}
.tw .body{fill:var(--paper);stroke:var(--ink);stroke-width:1.4;stroke-linejoin:round}
.tw .high .half{fill:var(--high)}
.tw .low .half{fill:var(--low)}
.tw .none .half{fill:var(--plain)}
.tw .alarm{fill:var(--alarm)}
.tw text.alarm{fill:var(--alarm)}
.tw text.on-alarm{fill:var(--paper)}
.tw .net:hover .wire,.tw .net:focus .wire,.tw .lit .wire{stroke-width:3.2}
.tw .axis{fill:none;stroke:var(--faint);stroke-width:1}
.tw .grid{fill:none;stroke:var(--faint);stroke-width:.5;stroke-dasharray:1 3}
.tw a text{fill:var(--low);text-decoration:underline}
`.trim();

/** The style sheet of a picture that stands alone. */
export const PICTURE_STYLE = [
  `.tw{${variables(LIGHT)}}`,
  `@media (prefers-color-scheme:dark){.tw{${variables(DARK)}}}`,
  `@media print{.tw{${variables(PAPER)}}}`,
  PICTURE_RULES,
].join('\n');
