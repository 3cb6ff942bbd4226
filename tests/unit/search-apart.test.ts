// Systems searched in parts: that nothing is lost by it, what is proved of the whole, and that the work is that of the
// parts.

import { describe, expect, test } from 'vitest';
import { type Job, runJob, Walks, walkJob } from '../../src/cli/job.ts';
import { networkFaults } from '../../src/network/check-network.ts';
import { putTogether } from '../../src/network/put-together.ts';
import { leastOfParts } from '../../src/search/apart.ts';
import { type OptimizeOptions, type Outcome, optimize, seedsOf } from '../../src/tickwright.ts';
import { foundNetwork, search, targetOf } from '../support/system-of.ts';

function options(more: Partial<OptimizeOptions> = {}): OptimizeOptions {
  return {
    target: targetOf('joined-or'),
    ticks: null,
    effort: 'normal',
    seed: 1,
    explain: false,
    version: '',
    ...more,
  };
}

/** `ticks:parts` of all points; * proved, and in how many sets each is proved. */
function curve(text: string, more: Partial<OptimizeOptions> = {}): string[] {
  const { result } = optimize('hall', text, {}, options(more));
  return result.points.map(({ ticks, parts, partsProved, provedApart, proof }) => {
    expect(proof.verdict).toBe('equal');
    return `${ticks}:${parts}${partsProved ? '*' : ''}${provedApart === undefined ? '' : ` ${provedApart} sets`}`;
  });
}

const lanes = (count: number, line: (i: number) => string): string =>
  Array.from({ length: count }, (_, i) => line(i)).join('\n');

describe('the whole', () => {
  test('takes the ticks of its slowest part and the parts of all', () => {
    expect(curve("x = a b\ny = c ^ d\nz = e + f'")).toEqual(['2:7*']);
    expect(curve(`${lanes(4, (i) => `x${i} = a${i} b${i}`)}\ny = c + d`)).toEqual(['2:12 5 sets']);
  });

  test('has a point wherever a part has one, smallest part by part', () => {
    const sum = 's = a ^ b ^ c';
    const other = 't = d ^ e ^ f';
    expect(curve(sum, { frontier: true })).toEqual(['2:7*', '4:6*']);
    expect(curve(`${sum}\n${other}`, { frontier: true })).toEqual(['2:14 2 sets', '4:12 2 sets']);
    expect(curve(`${sum}\n${other}`, { ticks: 4 })).toEqual(['4:12 2 sets']);
    expect(curve(`${sum}\n${other}`, { parts: 13 })).toEqual(['4:12 2 sets']);
    expect(curve(`${sum}\n${other}`, { budget: { factor: 1 } })).toEqual(['4:12 2 sets']);
  });

  test('is told to be impossible where a part is', () => {
    const text = `output x by 1, y\nx = a b\ny = c d\nz = e f g`;
    const { result, diagnostics, deadlineMissed } = optimize('hall', text, {}, options());
    expect(deadlineMissed).toBe(true);
    expect(result.points).toEqual([]);
    expect(diagnostics.map(({ message }) => message)).toContain(
      'x cannot settle by tick 1: no network of this target has it before tick 2',
    );
  });

  test('leaves inputs that nobody uses out of the search, so that it stays exact', () => {
    const unused = lanes(30, (i) => `u${i}`).split('\n');
    expect(curve(`input a, b, ${unused.join(', ')}\noutput x\nx = a ^ b`)).toEqual(['2:3*']);
  });
});

describe('what is proved', () => {
  test('a bound: the largest part, and one for each other that needs any', () => {
    expect(leastOfParts([])).toBe(0);
    expect(leastOfParts([0, 0])).toBe(0);
    expect(leastOfParts([0, 5, 0])).toBe(5);
    expect(leastOfParts([3, 5, 0, 1])).toBe(7);
  });

  test('it reaches the sum where all parts but one are single inverters', () => {
    expect(curve(`${lanes(9, (i) => `x${i} = a${i}'`)}\ny = c ^ d`)).toEqual(['2:12*']);
  });

  test('a small whole is asked for exactly, so that nothing is lost that was proved without parts', () => {
    expect(curve("y1 = a b\ny2 = c d + c' e\ny3 = f g")).toEqual(['2:10*']);
  });
});

describe('work', () => {
  test('equal parts are searched once: three hundred gates are one question', () => {
    const told: Outcome[] = [];
    const text = lanes(300, (i) => `x${i} = a${i} b${i}`);
    const { result } = optimize('hall', text, {}, options({ watch: { found: (news) => told.push(news) } }));
    expect(result.points[0]).toMatchObject({ ticks: 2, parts: 900, provedApart: 300 });
    expect(result.stop).toBe('complete');
    expect(told.length).toBeLessThan(10);
  });

  test('cut short at any time, the answer is whole and right', () => {
    const text = `${lanes(3, (i) => `x${i} = a${i} ^ b${i} ^ c${i}`)}\ny = maj(d, e, f) ^ g`;
    for (const after of [1, 3, 6]) {
      let told = 0;
      const watch = { found: () => told++, isCancelled: () => told >= after };
      const { result } = optimize('hall', text, {}, options({ watch }));
      expect(result.stop).toBe('cut short');
      expect(result.points.map(({ proof }) => proof.verdict)).toEqual(['equal']);
    }
  });
});

describe('who walks', () => {
  const adder = (n: number): string =>
    `for i in 0..1 { s${n}[i] = a${n}[i] ^ b${n}[i] ^ c${n}[i]; c${n}[i+1] = maj(a${n}[i], b${n}[i], c${n}[i]) }`;
  const job: Job = {
    name: 'two halls',
    text: [
      'input a1[1:0], b1[1:0], c1[0], d, e, f @ 1',
      'output s1[1:0], c1[2], full',
      adder(1),
      'full = maj(d, e, f)',
    ].join('\n'),
    rails: {},
    options: options({ effort: 'quick', frontier: true }),
  };

  test('in any order and in any number of threads, the result is that of one after the other', () => {
    const seeds = seedsOf(job.options);
    const walks = new Walks(job, seeds.length);
    for (const at of [1, 0]) {
      walks.ended(
        at,
        walkJob(job, seeds[at]!, (news) => walks.found(at, news)),
      );
    }
    const { name, text, rails } = job;
    const apart = optimize(name, text, rails, { ...job.options, found: walks.outcome! });
    expect(apart).toEqual(runJob(job));
    expect(apart.result.points.length).toBeGreaterThan(1);
  });
});

test('networks laid side by side are numbered by tick and keep what stands twice', () => {
  const one = foundNetwork(search('input a, b; output x; x = a b'));
  const pieces = [one, { ...one, outputs: [{ ...one.outputs[0]!, signal: 3 }] }];
  const inputs = one.inputs.map((wire) => [wire]);
  const whole = putTogether({ inputs, outputs: [{ signal: 3 }, { signal: 2 }] }, pieces);
  expect(networkFaults(whole)).toEqual([]);
  expect(whole.size).toBe(2 * one.size);
  expect([...whole.legs]).toEqual([2, 2, 3, 3, 4, 6, 5, 7]);
  expect([...whole.outputLegs]).toEqual([9, 8]);
});
