// A simulation as a value change dump, IEEE Std 1364 (Verilog), section "Value change dump (VCD) files": the four-state
// format, with the levels 0 and 1 only. Other programs draw it.
//
// Time 0 of the file is the moment before tick 0, so that what changes at tick 0 is seen to change: tick t stands at
// time t + 1. A tick of the target is as many units of the time scale as it takes; where its length is not known it is
// one nanosecond.

import type { History } from '../timing/history.ts';
import type { WatchedWire } from './watched-wires.ts';

export interface DumpOptions {
  readonly version: string;
  readonly secondsPerTick: number | null;
}

/** The text of the dump. */
export function valueChangeDump(
  history: History,
  wires: readonly WatchedWire[],
  { version, secondsPerTick }: DumpOptions,
): string {
  const scale = timeScale(secondsPerTick);
  const lines = [
    '$version',
    `  tickwright ${version}`,
    '$end',
    '$comment',
    '  Time 0 is before tick 0; tick t is at time',
    `  ${scale.units === 1 ? 't + 1' : `(t + 1) * ${scale.units}`}.`,
    '$end',
    `$timescale ${scale.name} $end`,
    '$scope module network $end',
    ...wires.map(({ label }, at) => `$var wire 1 ${codeOf(at)} ${reference(label)} $end`),
    '$upscope $end',
    '$enddefinitions $end',
    '#0',
    '$dumpvars',
    ...wires.map(({ wire }, at) => `${history.before[wire]}${codeOf(at)}`),
    '$end',
  ];
  const last = wires.map(({ wire }) => history.before[wire]);
  for (let tick = 0; tick <= history.ticks; tick++) {
    const changed = wires.flatMap(({ wire }, at) => {
      const level = history.levels[wire][tick];
      if (level === last[at]) return [];
      last[at] = level;
      return [`${level}${codeOf(at)}`];
    });
    if (changed.length > 0 || tick === history.ticks) lines.push(`#${(tick + 1) * scale.units}`, ...changed);
  }
  return `${lines.join('\n')}\n`;
}

/** Identifier code of a variable: printable characters from ! to ~, shortest first. */
function codeOf(index: number): string {
  const digits = 94;
  let code = '';
  for (let rest = index + 1; rest > 0; rest = Math.floor((rest - 1) / digits)) {
    code = String.fromCharCode(33 + ((rest - 1) % digits)) + code;
  }
  return code;
}

/** A name as the format wants it: no white space but before the bit of a vector. */
function reference(label: string): string {
  const bit = /^([A-Za-z_]\w*)\[(-?\d+)\]$/.exec(label);
  if (bit !== null) return `${bit[1]} [${bit[2]}]`;
  return label.replace(/ \((low|high)\)$/, '_$1').replace(/[^\w[\].$]/gu, '_');
}

const UNITS = ['s', 'ms', 'us', 'ns', 'ps', 'fs'];

/** The coarsest time scale in which a tick is a whole number of units. */
function timeScale(secondsPerTick: number | null): { readonly name: string; readonly units: number } {
  if (secondsPerTick === null) return { name: '1 ns', units: 1 };
  for (let unit = 0; unit < UNITS.length; unit++) {
    for (const count of [100, 10, 1]) {
      const units = (secondsPerTick * 1000 ** unit) / count;
      const whole = Math.round(units);
      if (whole >= 1 && Math.abs(units - whole) <= 1e-9 * units) {
        return { name: `${count} ${UNITS[unit]}`, units: whole };
      }
    }
  }
  return { name: '1 fs', units: Math.max(1, Math.round(secondsPerTick * 1e15)) };
}
