// A simulated run on the screen: the table or the waveform, and what was hard on the inverters.

import { visible } from '../../grammar/quote.ts';
import { isTooShort, pulsesInRun, strainOf, wearInRun } from '../timing/endurance.ts';
import type { History } from '../timing/history.ts';
import type { Painter } from './painter.ts';
import { counted, prose } from './paragraph.ts';
import { tickTable } from './tick-table.ts';
import type { WatchedWire } from './watched-wires.ts';
import { waveform } from './waveform.ts';

const INDENT = '  ';
/** Lines of the table; a longer run is for the other views. */
const MOST_TICKS_SHOWN = 400;

/** The lines of one run. */
export function trialLines(
  history: History,
  wires: readonly WatchedWire[],
  view: 'table' | 'wave',
  painter: Painter,
): string[] {
  const words =
    view === 'table'
      ? 'Levels of wires; a dot where nothing changes.'
      : 'Levels of wires, one character a tick: _ is 0, # is 1. The first is before tick 0.';
  return [
    '',
    painter.strong(view === 'table' ? 'Tick by tick' : 'Waveform'),
    ...prose(words, INDENT).map((line) => painter.faint(line)),
    ...(view === 'table' ? tickTable(history, wires, MOST_TICKS_SHOWN) : waveform(history, wires)),
    ...remarks(history, painter),
  ];
}

function remarks(history: History, painter: Painter): string[] {
  const { circuit, undetermined } = history;
  const { wear } = circuit.endurance;
  const lines: string[] = [];
  if (wear !== null) {
    for (const entry of wearInRun(history, wear.window)) {
      const strain = strainOf(circuit, entry);
      if (strain === null) continue;
      const name = visible(circuit.names[entry.wire]);
      const limit = `${counted(wear.changes, 'change')} in ${counted(wear.window, 'tick')}`;
      lines.push(
        ...prose(
          `${name} ${strain === 'fails' ? 'fails' : 'comes near its end'}: ${counted(entry.changes, 'change')} from tick ${entry.tick} on; it stands ${limit}.`,
          INDENT,
        ),
      );
    }
  }
  for (const pulse of pulsesInRun(history)) {
    if (!isTooShort(circuit, pulse)) continue;
    lines.push(
      ...prose(
        `${visible(circuit.names[pulse.wire])} has a pulse of ${counted(pulse.ticks, 'tick')} at tick ${pulse.tick}; an inverter follows ${counted(circuit.endurance.minPulse, 'tick')} or more.`,
        INDENT,
      ),
    );
  }
  for (const wire of undetermined) {
    lines.push(
      ...prose(
        `${visible(circuit.names[wire])} feeds back into itself; before tick 0 it was taken as 0.`,
        INDENT,
      ),
    );
  }
  return lines.length === 0 ? [] : ['', painter.strong('Remarks'), ...lines];
}
