import { readFileSync } from 'node:fs';
import { type Checklist, type CompileOptions, compileProcedure } from '@quarrel/checklist';
import type { Procedure } from '@quarrel/model';
import { Ajv2020 } from 'ajv/dist/2020.js';
import { expect } from 'vitest';

/** The checklist of a procedure that is known to have one. */
export function compiled(procedure: Procedure, options: CompileOptions = {}): Checklist {
  const result = compileProcedure(procedure, options);
  if (result.kind !== 'checklist') throw new Error(`no checklist: ${result.kind}`);
  return result.checklist;
}

const schema: object = JSON.parse(
  readFileSync(new URL('../../docs/schemas/checklist.schema.json', import.meta.url), 'utf8'),
);
const validate = new Ajv2020({ allErrors: true, strict: true }).compile(schema);

/** Fails with what the schema has against it. */
export function expectValid(document: unknown): void {
  validate(document);
  expect(validate.errors ?? []).toEqual([]);
}
