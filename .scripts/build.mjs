// Checks the types and bundles the command. Does nothing where nothing changed.
import { rmSync } from 'node:fs';
import { join } from 'node:path';
import { install, root, run, unlessUnchanged } from './steps.mjs';

export async function build() {
  install();
  let bundle = false;
  unlessUnchanged(
    'build',
    ['packages', 'tests', '.scripts', 'docs/rules', 'tsconfig.json', 'package-lock.json'],
    ['packages/cli/dist/quarrel.js'],
    () => {
      console.log('Building…');
      run('tsc', ['-p', '.']);
      rmSync(join(root, 'packages/cli/dist'), { recursive: true, force: true });
      run(process.execPath, ['.scripts/bundle.mjs']);
      bundle = true;
    },
  );
  return bundle;
}

if (process.argv[1] === import.meta.filename) await build();
