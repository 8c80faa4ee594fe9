// Installs, builds and runs all tests, those in a real editor last. `npm test -- PATH…` runs some of them.
// Ends with "N passed, N failed".
import { build } from './build.mjs';
import { leavingOutNeovim } from './neovim.mjs';
import { vitest } from './reports.mjs';
import { tryRun } from './steps.mjs';
import { testEditor } from './test-editor.mjs';

await build();
const given = process.argv.slice(2);
const inEditor = given.filter((path) => /^(\.\/)?tests\/editor(\/|$)/.test(path));
const elsewhere = given.filter((argument) => !inEditor.includes(argument));
const lint = tryRun('biome', ['check', '--config-path=.biome.json', '.']);
const results = [{ passed: lint === 0 ? 1 : 0, failed: lint === 0 ? 0 : 1 }];
if (given.length === 0 || elsewhere.length > 0) {
  results.push(vitest('tests/vitest.config.ts', 'test-report.json', [...leavingOutNeovim(), ...elsewhere]));
}
if (given.length === 0 || inEditor.length > 0) results.push(await testEditor(inEditor));
const passed = results.reduce((sum, result) => sum + result.passed, 0);
const failed = results.reduce((sum, result) => sum + result.failed, 0);
console.log(`${passed} passed, ${failed} failed`);
process.exitCode = failed === 0 ? 0 : 1;
