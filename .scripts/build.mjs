// Checks the types and bundles the command and the extension. Does nothing where nothing changed.
import { rmSync } from 'node:fs';
import { join } from 'node:path';
import { install, root, run, unlessUnchanged } from './steps.mjs';

export async function build() {
  install();
  let bundle = false;
  unlessUnchanged(
    'build',
    ['packages', 'tests', 'syntaxes', '.scripts', 'docs/rules', 'tsconfig.json', 'package-lock.json'],
    ['packages/cli/dist/quarrel.js', 'packages/extension/dist/client.cjs'],
    () => {
      console.log('Building…');
      run('tsc', ['-p', '.']);
      run('tsc', ['-p', 'packages/extension/src/panels']);
      rmSync(join(root, 'packages/cli/dist'), { recursive: true, force: true });
      run(process.execPath, ['.scripts/bundle.mjs']);
      run(process.execPath, ['.scripts/bundle-extension.mjs']);
      bundle = true;
    },
  );
  return bundle;
}

if (process.argv[1] === import.meta.filename) await build();
