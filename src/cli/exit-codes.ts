// What the program tells the one who called it. Each code stands here once; help and README derive from the table.

export const EXIT = {
  done: 0,
  faults: 1,
  wrongUse: 2,
  deadline: 3,
  notProved: 4,
  conflicts: 5,
  notWritten: 6,
  cutShort: 130,
} as const;

export type ExitCode = (typeof EXIT)[keyof typeof EXIT];

export const EXIT_MEANINGS: readonly (readonly [ExitCode, string])[] = [
  [EXIT.done, 'done'],
  [EXIT.faults, 'faults in the input: the equations, the target profile, or a file that cannot be read'],
  [EXIT.wrongUse, 'wrong use of the command line'],
  [EXIT.deadline, 'a deadline cannot be met, or no network with so few parts was found'],
  [EXIT.notProved, 'a network could not be proved equal to its equations'],
  [EXIT.conflicts, 'conflicts or hazards found'],
  [EXIT.notWritten, 'the output could not be written'],
  [EXIT.cutShort, 'cut short from the keyboard'],
];

/** The code of a run over several sources: the gravest first. */
export function gravest(codes: readonly ExitCode[]): ExitCode {
  const order: readonly ExitCode[] = [
    EXIT.cutShort,
    EXIT.faults,
    EXIT.deadline,
    EXIT.notProved,
    EXIT.conflicts,
  ];
  return order.find((code) => codes.includes(code)) ?? EXIT.done;
}
