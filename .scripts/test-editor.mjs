// Packages the extension and tries it in a real VS Code. `npm run test:editor -- PATH…` runs some of the tests.
import { makePackage } from './package.mjs';
import { vitest } from './reports.mjs';

/** Runs the tests in tests/editor that match `paths`, all where there are none; gives what came of them. */
export async function testEditor(paths) {
  await makePackage();
  return vitest('tests/editor/vitest.config.ts', 'editor-report.json', paths);
}

if (process.argv[1] === import.meta.filename) {
  const { passed, failed } = await testEditor(process.argv.slice(2));
  console.log(`${passed} passed, ${failed} failed`);
  process.exitCode = failed === 0 ? 0 : 1;
}
