// What the operands of most commands are, in words.

export const SOURCES = 'EQUATIONS|FILE|- ...';
export const ABOUT_SOURCES =
  'An argument that holds = is equations; all of these together are one system. Any other argument is a file; ' +
  '- is standard input. Each file is a system of its own.';
