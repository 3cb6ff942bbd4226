import { readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { readTarget } from '../../src/target/read-target.ts';
import { JOINED_OR, SHIPPED_TARGETS, shippedTarget } from '../../src/target/shipped-targets.ts';
import { targetProfileFaults } from '../../src/target/target-profile-check.ts';

/** The faults of a profile, each as `line:column code message / hint`. */
function faultsOf(text: string): string[] {
  const { value, diagnostics } = readTarget(text);
  expect(value).toBeNull();
  return diagnostics.map(({ at, code, message, hint, severity }) => {
    expect(severity).toBe('error');
    const before = text.slice(0, at?.start).split('\n');
    const place = `${before.length}:${(before.at(-1)?.length ?? 0) + 1}`;
    return `${place} ${code} ${message}${hint === null ? '' : ` / ${hint}`}`;
  });
}

describe('shipped targets', () => {
  test('each stands once, with a summary', () => {
    const names = SHIPPED_TARGETS.map((target) => target.name);
    expect(names).toEqual(['joined-or', 'joined-or-single', 'joined-or-4', 'nor-gates', 'joined-and']);
    for (const target of SHIPPED_TARGETS) {
      expect(target.summary).not.toBe('');
      expect(shippedTarget(target.name)).toBe(target);
    }
    expect(shippedTarget('joined-xor')).toBeNull();
  });

  test.each(SHIPPED_TARGETS)('$name keeps the schema and is read back as itself', (target) => {
    expect(targetProfileFaults(target)).toEqual([]);
    expect(readTarget(JSON.stringify(target)).value).toEqual(target);
  });
});

describe('reading a profile', () => {
  test('fills in the defaults of joined-or', () => {
    expect(readTarget('{ "name": "mine" }')).toEqual({
      value: { ...JOINED_OR, name: 'mine', summary: '' },
      diagnostics: [],
    });
  });

  test('a byte order mark, a $schema and escapes are fine', () => {
    const text = '\uFEFF{ "$schema": "x.json", "name": "a", "summary": "caf\\u00e9 \\"b\\"" }';
    expect(readTarget(text).value?.summary).toBe('café "b"');
  });

  test.each([
    ['{ "ticks": 3 }', [3, 3, 3]],
    ['{ "ticksOn": 2 }', [2, 2, 2]],
    ['{ "ticksOn": 2, "ticksOff": 5 }', [5, 2, 5]],
    ['{ "ticks": 4, "ticksOff": 2 }', [4, 4, 2]],
  ])('durations of an inverter: %s', (inverter, expected) => {
    const { value } = readTarget(`{ "name": "slow", "inverter": ${inverter} }`);
    expect([value?.inverter.ticks, value?.inverter.ticksOn, value?.inverter.ticksOff]).toEqual(expected);
  });

  test('null stands for any number', () => {
    const { value } = readTarget(
      '{ "name": "free", "join": { "maxLegs": null }, "inverter": { "wear": null } }',
    );
    expect(value?.join.maxLegs).toBeNull();
    expect(value?.inverter.wear).toBeNull();
  });

  test('the defaults named in the schema are those that reading fills in', () => {
    const schema = JSON.parse(
      readFileSync(new URL('../../src/target/target.schema.json', import.meta.url), 'utf8'),
    );
    for (const group of ['join', 'inverter', 'input'] as const) {
      for (const [field, rule] of Object.entries(schema.properties[group].properties)) {
        const words = (rule as { description: string }).description;
        const value = (JOINED_OR[group] as Record<string, unknown>)[field];
        if (group === 'inverter' && /^ticks/.test(field)) continue;
        expect(words, `${group}.${field}`).toMatch(new RegExp(`Default: ${String(value)}\\.$`));
      }
    }
  });
});

describe('faults of a profile', () => {
  test('all faults of the fields at once, in the order of the text, each with its path', () => {
    const text = [
      '{',
      '  "name": "a b",',
      '  "join": { "logic": "xor", "ticks": -1, "where": 3 },',
      '  "inverter": { "maxLeg": 4, "ticks": 1.5, "outputs": "many", "maxLegs": 1, "parts": 1e999 },',
      '  "input": [],',
      '  "secondsPerTick": 0,',
      '  "a \\"b": true',
      '}',
    ].join('\n');
    expect(faultsOf(text)).toMatchInlineSnapshot(`
      [
        "2:11 target-field-value $.name must be letters, digits, dots, dashes and underscores, at most 64, a letter or digit first, not "a b"",
        "3:22 target-field-value $.join.logic must be "or" or "and", not "xor"",
        "3:38 target-field-value $.join.ticks must be at least 0, not -1",
        "3:51 target-field-value $.join.where must be "anywhere" or "inverter-inputs", not 3",
        "4:17 target-field-unknown $.inverter.maxLeg is not a field of a target / the fields there are ticks, ticksOn, ticksOff, parts, maxLegs, outputs, minPulse, wear",
        "4:39 target-field-value $.inverter.ticks must be a whole number, not 1.5",
        "4:55 target-field-value $.inverter.outputs must be a whole number or null, not "many"",
        "4:74 target-field-value $.inverter.maxLegs must be at least 2, not 1",
        "4:86 target-field-value $.inverter.parts must be a whole number, not 1e999",
        "5:12 target-field-value $.input must be an object in { }, not []",
        "6:21 target-field-value $.secondsPerTick must be more than 0, not 0",
        "7:3 target-field-unknown $["a \\"b"] is not a field of a target / the fields there are name, summary, join, inverter, input, secondsPerTick",
      ]
    `);
  });

  test('missing fields', () => {
    expect(faultsOf('{}')).toMatchInlineSnapshot(`
      [
        "1:1 target-field-missing $.name is missing / add "name": "my-target" there",
      ]
    `);
    expect(faultsOf('{ "name": "a", "inverter": { "wear": { "changes": 3 } } }')).toMatchInlineSnapshot(`
      [
        "1:38 target-field-missing $.inverter.wear.window is missing / add "window": 4 there",
      ]
    `);
  });

  test('a profile that is no object', () => {
    expect(faultsOf('[1,\n 2]')).toMatchInlineSnapshot(`
      [
        "1:1 target-field-value $ must be an object in { }, not [1, 2]",
      ]
    `);
  });

  test('ticks against ticksOn and ticksOff', () => {
    expect(
      faultsOf('{ "name": "a", "inverter": { "ticks": 2, "ticksOn": 1, "ticksOff": 1 } }'),
    ).toMatchInlineSnapshot(`
      [
        "1:39 target-ticks-differ $.inverter.ticks must be the larger of ticksOn and ticksOff, 1, not 2 / leave ticks out",
      ]
    `);
  });
});

describe('faults of the JSON itself', () => {
  const NOT = 'json-syntax this is not JSON:';
  test.each([
    ['', `1:1 ${NOT} the text ends where a value should be`],
    ['{ "name": "a"', `1:14 ${NOT} the text ends where a comma or } should be`],
    ['{ "name": "a"\n"join": {} }', `2:1 ${NOT} a double quote stands where a comma or } should be`],
    ['{ "name": "a", }', `1:16 ${NOT} "}" stands where a name in double quotes should be`],
    ['{ name: "a" }', `1:3 ${NOT} "n" stands where a name in double quotes should be`],
    ['{ "name": mine }', `1:11 ${NOT} "mine" stands where a value should be / put a text in double quotes`],
    ['{ "name": "a\n" }', `1:13 ${NOT} the line ends where the closing double quote of this text should be`],
    ['{ "name": "a\\q" }', `1:14 ${NOT} "q" stands where one of " \\ / b f n r t or u0000 should be`],
    ['{ "name": "a", "name": "b" }', '1:16 json-syntax the name "name" stands here twice'],
    ['{ "name": "a" } more', `1:17 ${NOT} the value has ended, but more text follows`],
    ['{ "name" "a" }', `1:10 ${NOT} a double quote stands where a colon should be`],
    ['{ "secondsPerTick": .5 }', `1:21 ${NOT} "." stands where a value should be`],
    ['{ "secondsPerTick": 01 }', `1:22 ${NOT} "1" stands where a comma or } should be`],
    ['['.repeat(100_000), `1:34 ${NOT} "[" stands where a value that is nested less deeply should be`],
  ])('%#', (text, fault) => {
    expect(faultsOf(text)).toEqual([fault]);
  });

  test('a member called __proto__ is an unknown field like any other', () => {
    expect(faultsOf('{ "name": "a", "__proto__": { "join": 1 } }')[0]).toMatch(
      /\$\.__proto__ is not a field/,
    );
  });
});
