// Bundles the command. It needs nothing but Node 20.19 or later. What only one of its words takes, such as the language server, is
// a part of its own, which is read when that word is said.
import { join } from 'node:path';
import { build } from 'esbuild';
import { root } from './steps.mjs';
import { bundledTexts } from './text-modules.mjs';

await build({
  absWorkingDir: root,
  entryPoints: { quarrel: 'packages/cli/src/main.ts' },
  outdir: 'packages/cli/dist',
  bundle: true,
  splitting: true,
  chunkNames: 'parts/[name]-[hash]',
  platform: 'node',
  target: 'node20.19',
  format: 'esm',
  minify: false,
  sourcemap: false,
  legalComments: 'eof',
  logLevel: 'warning',
  plugins: [bundledTexts],
  // Some of the bundled packages are CommonJS and ask for Node's own modules with `require`.
  banner: {
    js: "import { createRequire as __createRequire } from 'node:module'; const require = __createRequire(import.meta.url);",
  },
});
console.log(`Bundled ${join('packages', 'cli', 'dist', 'quarrel.js')}`);
