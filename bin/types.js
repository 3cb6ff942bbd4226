// Writes the TypeScript types and the validators that belong to the JSON Schemas. The files it writes are kept in the
// repository, so that a reader sees them; `--check` writes nothing and fails when one of them is stale.
import { readFileSync, writeFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { Ajv } from 'ajv';
import standalone from 'ajv/dist/standalone/index.js';
import { transform } from 'esbuild';
import { compile } from 'json-schema-to-typescript';

const root = new URL('../', import.meta.url);

const SCHEMAS = [
  {
    schema: 'src/target/target.schema.json',
    types: 'src/target/target-profile.ts',
    check: 'src/target/target-profile-check.ts',
    faults: 'targetProfileFaults',
    about: 'A target profile as its author writes it',
    faultType: './schema-fault.ts',
  },
  {
    schema: 'src/report/result.schema.json',
    types: 'src/report/result.ts',
    check: 'src/report/result-check.ts',
    faults: 'resultFaults',
    about: 'The array of results that --json prints',
    faultType: '../target/schema-fault.ts',
  },
  {
    schema: 'src/batch/plan.schema.json',
    types: 'src/batch/plan-file.ts',
    check: 'src/batch/plan-file-check.ts',
    faults: 'planFaults',
    about: 'The plan of a batch as its author writes it',
    faultType: '../target/schema-fault.ts',
  },
  {
    schema: 'src/batch/row.schema.json',
    types: 'src/batch/row-file.ts',
    check: 'src/batch/row-file-check.ts',
    faults: 'rowFaults',
    about: 'One system on a line of a JSON Lines file',
    faultType: '../target/schema-fault.ts',
  },
];

/** A schema without titles and descriptions, which a validator would carry along for nothing. */
function withoutProse(schema) {
  return JSON.parse(JSON.stringify(schema, (key, value) => (isProse(key, value) ? undefined : value)));
}

function isProse(key, value) {
  return (key === 'title' || key === 'description') && typeof value === 'string';
}

/** The two generated texts of one row of SCHEMAS, by file name. */
async function generate(row) {
  const text = readFileSync(new URL(row.schema, root), 'utf8');
  const banner = `// Generated from ${row.schema.split('/').pop()} by \`npm run types\`; do not edit.\n`;
  const types = await compile(JSON.parse(text), row.types, {
    bannerComment: `${banner}// ${row.about}.\n`,
    additionalProperties: false,
    ignoreMinAndMaxItems: true,
    style: { singleQuote: true, printWidth: 110 },
  });

  const ajv = new Ajv({
    allErrors: true,
    messages: false,
    allowUnionTypes: true,
    code: { source: true, esm: true, lines: true, optimize: 2 },
  });
  ajv.addSchema(withoutProse(JSON.parse(text)), 'schema');
  const code = standalone.default(ajv, { validate: 'schema' });
  if (/\brequire\s*\(|^import /m.test(code))
    throw new Error(`${row.schema}: the validator needs a run-time library`);
  const { code: tidy } = await transform(code.replace(/"use strict";/, ''), {
    minifySyntax: true,
    target: 'es2022',
    format: 'esm',
  });
  const body = tidy.replace(/export \{[^}]*\};\n/, '');
  const check = [
    '// @ts-nocheck',
    `${banner}// ${row.about}: where it breaks the schema.`,
    `import type { SchemaFault } from '${row.faultType}';`,
    '',
    body,
    '/** All places where the value breaks the schema; none when it keeps it. */',
    `export function ${row.faults}(value: unknown): readonly SchemaFault[] {`,
    '  return validate(value) ? [] : validate.errors;',
    '}',
    '',
  ].join('\n');
  return { [row.types]: types, [row.check]: check };
}

const checkOnly = process.argv.includes('--check');
const stale = [];
for (const row of SCHEMAS) {
  for (const [file, text] of Object.entries(await generate(row))) {
    const url = new URL(file, root);
    let present = null;
    try {
      present = readFileSync(url, 'utf8');
    } catch {
      // Not there yet.
    }
    if (present === text) continue;
    stale.push(file);
    if (!checkOnly) writeFileSync(fileURLToPath(url), text);
  }
}
if (checkOnly && stale.length > 0) {
  console.error(`Stale against their schemas: ${stale.join(', ')}. Run \`npm run types\`.`);
  process.exitCode = 1;
} else {
  console.log(stale.length === 0 ? 'Generated types are fresh.' : `Written: ${stale.join(', ')}`);
}
