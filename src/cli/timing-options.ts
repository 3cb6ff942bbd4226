// Options that the commands about timing share.

import type { OptionRow } from './options.ts';

export const NETWORK: OptionRow = {
  name: 'network',
  value: 'WHICH',
  kind: 'choice',
  choices: ['found', 'written'],
  fallback: 'found',
  purpose: 'the network that the search finds, or the equations laid operator by operator',
};

export const HOLD: OptionRow = {
  name: 'hold',
  value: 'NAME=LEVEL',
  kind: 'names',
  fallback: null,
  purpose: 'inputs that keep their value all the time, as in a=0,b=1',
};
