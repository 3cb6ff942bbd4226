// A reader of value change dumps, written from the syntax of IEEE Std 1364 (tokens parted by white space, keyword
// commands closed by $end, scalar changes, times) and apart from the writer. It knows scalars only and throws at
// everything else.

export interface VcdVariable {
  readonly scope: string;
  readonly type: string;
  readonly size: number;
  readonly code: string;
  /** With its bit select, if there is one, without white space. */
  readonly reference: string;
}

export interface VcdFile {
  /** In seconds. */
  readonly unit: number;
  readonly variables: readonly VcdVariable[];
  /** In the order of the file. */
  readonly changes: readonly { readonly time: number; readonly code: string; readonly value: string }[];
  readonly lastTime: number;
}

const SECONDS: Readonly<Record<string, number>> = {
  s: 1,
  ms: 1e-3,
  us: 1e-6,
  ns: 1e-9,
  ps: 1e-12,
  fs: 1e-15,
};

export function readVcd(text: string): VcdFile {
  if (/[^\t\n\r -~]/.test(text)) throw new Error('not ASCII');
  const tokens = text.split(/\s+/).filter((token) => token !== '');
  let at = 0;
  const until = (end: string): string[] => {
    const found: string[] = [];
    while (tokens[at] !== end) {
      if (at >= tokens.length) throw new Error(`${end} is missing`);
      found.push(tokens[at++]);
    }
    at++;
    return found;
  };
  let unit: number | null = null;
  const scopes: string[] = [];
  const variables: VcdVariable[] = [];
  // Declarations.
  for (;;) {
    const command = tokens[at++];
    if (command === undefined) throw new Error('the declarations do not end');
    const body = until('$end');
    if (command === '$enddefinitions') {
      if (body.length > 0) throw new Error('$enddefinitions holds something');
      break;
    }
    if (command === '$timescale') {
      const match = /^(1|10|100)(s|ms|us|ns|ps|fs)$/.exec(body.join(''));
      if (match === null) throw new Error(`time scale ${body.join(' ')}`);
      unit = Number(match[1]) * SECONDS[match[2]];
    } else if (command === '$scope') {
      if (body.length !== 2 || !['module', 'task', 'function', 'begin', 'fork'].includes(body[0])) {
        throw new Error(`scope ${body.join(' ')}`);
      }
      scopes.push(body[1]);
    } else if (command === '$upscope') {
      if (scopes.pop() === undefined) throw new Error('$upscope without $scope');
    } else if (command === '$var') {
      const [type, size, code, ...name] = body;
      if (!/^[A-Za-z_$][\w$]*(?:\[-?\d+\])?$/.test(name.join(''))) throw new Error(`name ${name.join(' ')}`);
      if (variables.some((other) => other.code === code)) throw new Error(`code ${code} twice`);
      variables.push({ scope: scopes.join('.'), type, size: Number(size), code, reference: name.join('') });
    } else if (!['$comment', '$date', '$version'].includes(command)) throw new Error(`command ${command}`);
  }
  if (scopes.length > 0) throw new Error('a scope is open');
  if (unit === null) throw new Error('there is no time scale');
  // Changes.
  let time: number | null = null;
  let dumping = false;
  const changes: { time: number; code: string; value: string }[] = [];
  for (; at < tokens.length; at++) {
    const token = tokens[at];
    if (/^#\d+$/.test(token)) {
      const next = Number(token.slice(1));
      if (time !== null && next <= time) throw new Error(`time ${next} after ${time}`);
      time = next;
    } else if (token === '$dumpvars') dumping = true;
    else if (token === '$end' && dumping) dumping = false;
    else if (/^[01xXzZ]./.test(token)) {
      const code = token.slice(1);
      if (!variables.some((variable) => variable.code === code)) throw new Error(`unknown code ${code}`);
      changes.push({ time: time ?? 0, code, value: token[0] });
    } else throw new Error(`token ${token}`);
  }
  return { unit, variables, changes, lastTime: time ?? 0 };
}

/** Value of a variable at a time. */
export function valueAt(file: VcdFile, reference: string, time: number): string {
  const variable = file.variables.find((other) => other.reference === reference);
  if (variable === undefined) throw new Error(`no variable ${reference}`);
  const before = file.changes.filter((change) => change.code === variable.code && change.time <= time);
  return before.at(-1)?.value ?? 'x';
}
