// Identifiers of IEEE 1364. A plain name stays as it is; any other printable name is written with a backslash before it
// and a space behind it; what cannot stand even there is spelled by its code point, `$u` with hexadecimal digits. Names
// that are different stay different.

import { visible } from '../../grammar/quote.ts';

const PLAIN = /^[A-Za-z_][A-Za-z0-9_$]*$/;

/** Words that the language keeps for itself (IEEE 1364-2005, annex B). */
const KEYWORDS = new Set(
  `always and assign automatic begin buf bufif0 bufif1 case casex casez cell cmos config deassign default defparam design
  disable edge else end endcase endconfig endfunction endgenerate endmodule endprimitive endspecify endtable endtask event
  for force forever fork function generate genvar highz0 highz1 if ifnone incdir include initial inout input instance
  integer join large liblist library localparam macromodule medium module nand negedge nmos nor noshowcancelled not notif0
  notif1 or output parameter pmos posedge primitive pull0 pull1 pulldown pullup pulsestyle_ondetect pulsestyle_onevent
  rcmos real realtime reg release repeat rnmos rpmos rtran rtranif0 rtranif1 scalared showcancelled signed small specify
  specparam strong0 strong1 supply0 supply1 table task time tran tranif0 tranif1 tri tri0 tri1 triand trior trireg unsigned
  use uwire vectored wait wand weak0 weak1 while wire wor xnor xor`.split(/\s+/),
);

function code(character: string): string {
  return `$u${(character.codePointAt(0) ?? 0).toString(16)}$`;
}

/** Characters that an escaped identifier may hold are those from `!` to `~`; what looks like a code is spelled too. */
function spelled(name: string): string {
  return name.replace(/[^!-~]|\$(?=u[0-9a-f]+\$)/gu, code);
}

/** Text for a comment: one line of ASCII. */
export function comment(text: string): string {
  return visible(text).replace(/[^ -~]/gu, code);
}

/** The identifier as it is written, with its space where it needs one. */
export function written(identifier: string): string {
  return PLAIN.test(identifier) && !KEYWORDS.has(identifier) ? identifier : `\\${identifier} `;
}

/** Gives names to things in one module; every answer is different. */
export class Identifiers {
  private readonly taken = new Set<string>();

  /** An identifier as close to the name as can be. */
  take(name: string): string {
    let identifier = spelled(name);
    if (identifier === '') identifier = '_';
    while (this.taken.has(identifier)) identifier += '_';
    this.taken.add(identifier);
    return identifier;
  }
}

/** A string literal: only printable ASCII, quotes and backslashes escaped. */
export function literal(text: string): string {
  const safe = text.replace(/[^ -~]|\$(?=u[0-9a-f]+\$)/gu, code);
  return `"${safe.replace(/[\\"]/g, (character) => `\\${character}`)}"`;
}
