import { existsSync, mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { expect } from 'vitest';

const folder = fileURLToPath(new URL('golden/', import.meta.url));

/** Compares with a whole file under `golden/`. `QUARREL_RECORD=1` writes it instead; look at what changed before committing. */
export function expectGolden(name: string, text: string): void {
  const path = `${folder}${name}`;
  if (process.env.QUARREL_RECORD === '1') {
    mkdirSync(folder, { recursive: true });
    writeFileSync(path, text);
  }
  expect(existsSync(path), `${path} is missing; QUARREL_RECORD=1 writes it`).toBe(true);
  expect(text).toBe(readFileSync(path, 'utf8'));
}
