// Bundles the extension into packages/extension/dist: the client and the server, each for Node and for the browser, the command
// that tasks run, and the page of the panels. Nothing is fetched or resolved at run time.
import { copyFileSync, mkdirSync, readdirSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { build } from 'esbuild';
import { root } from './steps.mjs';
import { bundledTexts } from './text-modules.mjs';

const dist = join(root, 'packages', 'extension', 'dist');

const all = {
  absWorkingDir: root,
  outdir: dist,
  bundle: true,
  minify: true,
  legalComments: 'none',
  metafile: true,
  write: false,
  logLevel: 'warning',
  plugins: [bundledTexts],
};

/** For the extension host on a desktop or a remote machine, which brings a Node of its own. */
const onNode = { ...all, platform: 'node', target: 'node20', format: 'cjs', outExtension: { '.js': '.cjs' } };
const inBrowser = { ...all, platform: 'browser', target: 'es2022' };

const bundles = await Promise.all([
  build({ ...onNode, entryPoints: { client: 'packages/extension/src/client/desktop.ts' }, external: ['vscode'] }),
  build({ ...onNode, entryPoints: { server: 'packages/server/src/entry/node.ts' } }),
  build({
    ...onNode,
    entryPoints: { quarrel: 'packages/cli/src/main.ts' },
    format: 'esm',
    outExtension: { '.js': '.mjs' },
    // Some of the bundled packages are CommonJS and ask for Node's own modules with `require`.
    banner: {
      js: "import { createRequire as __createRequire } from 'node:module'; const require = __createRequire(import.meta.url);",
    },
  }),
  build({
    ...inBrowser,
    entryPoints: { 'client.web': 'packages/extension/src/client/web.ts' },
    format: 'cjs',
    external: ['vscode'],
  }),
  build({ ...inBrowser, entryPoints: { 'server.web': 'packages/server/src/entry/web.ts' }, format: 'iife' }),
  build({
    ...inBrowser,
    entryPoints: { panel: 'packages/extension/src/panels/panel.tsx' },
    format: 'iife',
    jsx: 'automatic',
    jsxImportSource: 'preact',
  }),
  build({ ...inBrowser, entryPoints: { panel: 'packages/extension/src/panels/panel.css' } }),
]);

rmSync(dist, { recursive: true, force: true });
mkdirSync(dist, { recursive: true });
for (const { path, contents } of bundles.flatMap(({ outputFiles }) => outputFiles)) writeFileSync(path, contents);
for (const name of readdirSync(join(root, 'syntaxes'))) copyFileSync(join(root, 'syntaxes', name), join(dist, name));
writeFileSync(join(dist, 'bundled.json'), `${JSON.stringify(packagesIn(bundles), undefined, 2)}\n`);
console.log(`Bundled ${join('packages', 'extension', 'dist')}`);

/** The folders of the packages that went into the bundles, as their licences ship with the extension. */
function packagesIn(made) {
  const files = made.flatMap(({ metafile }) => Object.keys(metafile.inputs));
  const folders = files.flatMap((file) => /^.*node_modules\/(?:@[^/]+\/)?[^/]+/.exec(file)?.[0] ?? []);
  return [...new Set(folders)].sort();
}
