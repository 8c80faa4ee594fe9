// Packages the extension and tries it in a real VS Code. `npm run test:editor -- PATH…` runs some of the tests.
import { vitest } from './reports.mjs';
import { run } from './steps.mjs';

/** Runs the tests in tests/editor that match `paths`, all where there are none; gives what came of them. */
export function testEditor(paths) {
  run('node', ['.scripts/package.mjs']);
  return vitest('tests/editor/vitest.config.ts', 'editor-report.json', paths);
}

if (process.argv[1] === import.meta.filename) {
  const { passed, failed } = testEditor(process.argv.slice(2));
  console.log(`${passed} passed, ${failed} failed`);
  process.exitCode = failed === 0 ? 0 : 1;
}
