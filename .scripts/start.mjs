// Installs, builds, checks the examples and compiles a checklist into `out/`: the examples' standard procedure, or the sheet
// or folder given as `npm start -- PATH`.
import { existsSync } from 'node:fs';
import { resolve } from 'node:path';
import { build } from './build.mjs';
import { root, tryRun } from './steps.mjs';

const own = process.argv[2] === undefined ? undefined : resolve(process.env.INIT_CWD ?? root, process.argv[2]);
if (own !== undefined && !existsSync(own)) {
  console.error(`There is no file or folder ${own}. Give the path of a .quarrel sheet, or of a folder with sheets.`);
  process.exit(2);
}
await build();
const checked = own ?? 'examples/school';
const compiled = own ?? 'examples/school/stone-chip.quarrel';
const quarrel = (...args) => tryRun('node', ['packages/cli/bin/quarrel.js', ...args]);

console.log(`\nChecking ${checked}:`);
const check = quarrel('check', checked);
if (check !== 0) {
  console.log('\nMend what is reported above, then start again. `npx quarrel explain RULE` tells more about a rule.');
  process.exit(check);
}
console.log(`\nCompiling ${compiled} into out/:`);
for (const format of ['html', 'md', 'json']) {
  const status = quarrel('compile', compiled, '--format', format, '--out', 'out');
  if (status !== 0) process.exit(status);
}
console.log(`
Where to look next:
  out/                        the compiled checklist, to print (.html), to read (.md) and for programs (.json)
  examples/README.md          the fictional school and what its sheets show
  npx quarrel check examples/draft     a draft with faults, and how they are reported
  npx quarrel new my-procedure         a first sheet of your own
  docs/language.md            the language`);
