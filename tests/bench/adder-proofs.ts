// Proofs: is a ripple adder, as equations, the same as a network of prefixes? Asked of the prover (which finds equal wires
// on the way and replays the whole clause proof), of our solver alone (the same question as bare clauses, with replay),
// and of the registry solver (the same clauses; it writes no proof). Each time is the median of a few runs that take
// turns, so that a busy machine slows all alike; the last column is what the bench is for: the time of the prover, replay
// included, as a ratio to that of the registry solver.

import { compareBySolver } from '../../src/proof/compare-by-solver.ts';
import { checkProof } from '../../src/solver/check-proof.ts';
import { ClauseProof } from '../../src/solver/clause-proof.ts';
import { Solver } from '../../src/solver/solver.ts';
import { type Formula, unequal } from '../support/formulas.ts';
import { registryEngine } from '../support/registry-solver.ts';
import { prefixAdder, rippleAdder } from '../unit/proof-samples.ts';

const SIZES = [8, 16, 32, 64, 128];
/** Our solver alone is not asked above this: without equal wires on the way it takes minutes. */
const MOST_ALONE = 64;
const RUNS = 3;
const LIMIT = 400_000;

/** Milliseconds that `work` takes; it must return true, or the bench has failed. */
function timed(what: string, work: () => boolean): number {
  const start = process.hrtime.bigint();
  if (!work()) throw new Error(`${what} did not come to a proof`);
  return Number(process.hrtime.bigint() - start) / 1e6;
}

function solverAlone({ variables, clauses }: Formula): boolean {
  const proof = new ClauseProof();
  const solver = new Solver(proof);
  for (let v = 0; v < variables; v++) solver.newVariable();
  for (const clause of clauses) solver.addClause(clause);
  return solver.solve([], LIMIT) === 'unsatisfiable' && checkProof(proof.steps).refuted;
}

function registry({ variables, clauses }: Formula): () => boolean {
  const engine = registryEngine(variables);
  return () => !(clauses.every((clause) => engine.addClause([...clause])) && engine.solve());
}

function median(times: readonly number[]): number {
  return [...times].sort((a, b) => a - b)[times.length >> 1];
}

const cell = (text: string): string => text.padStart(13);
const row = (cells: readonly string[]): void => console.log(`  ${cells.map(cell).join('')}`);
console.log(`A ripple adder proved equal to a network of prefixes, milliseconds, median of ${RUNS} runs`);
row(['bits', 'clauses', 'prover', 'solver alone', 'registry', 'ratio']);
for (const bits of SIZES) {
  const system = rippleAdder(bits);
  const network = prefixAdder(system, bits);
  const formula = unequal(system, network);
  const times: number[][] = [[], [], []];
  for (let run = 0; run < RUNS; run++) {
    const prover = (): boolean => {
      const { answer, replayed } = compareBySolver(system, network, 'or', LIMIT);
      return answer === 'equal' && replayed > 0;
    };
    times[0].push(timed('the prover', prover));
    if (bits <= MOST_ALONE) times[1].push(timed('our solver', () => solverAlone(formula)));
    times[2].push(timed('the registry solver', registry(formula)));
  }
  const [own, alone, other] = times.map(median);
  row([
    String(bits),
    String(formula.clauses.length),
    own.toFixed(0),
    bits <= MOST_ALONE ? alone.toFixed(0) : '-',
    other.toFixed(0),
    (own / other).toFixed(2),
  ]);
}
