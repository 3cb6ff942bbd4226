// The part of the solver from the registry that the tests use.
declare module 'logic-solver' {
  type Formula = string | object;
  interface Solution {
    evaluate(formula: Formula): boolean;
  }
  class Solver {
    require(...formulas: Formula[]): void;
    solve(): Solution | null;
  }
  const Logic: {
    Solver: typeof Solver;
    or(...formulas: Formula[]): Formula;
    and(...formulas: Formula[]): Formula;
    not(formula: Formula): Formula;
    implies(a: Formula, b: Formula): Formula;
    equiv(a: Formula, b: Formula): Formula;
    TRUE: Formula;
    FALSE: Formula;
  };
  // biome-ignore lint/style/noDefaultExport: it is their export.
  export default Logic;
}
