// Makes out/quarrel.vsix: the extension as VS Code installs it. The archive is made with the Node of the npm package `node`, as its
// maker needs a newer one than the machine may have.
import {
  copyFileSync,
  cpSync,
  mkdirSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  rmSync,
  statSync,
  writeFileSync,
} from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { build } from './build.mjs';
import { root, run } from './steps.mjs';

const extension = join(root, 'packages', 'extension');
const mostBytes = 2_000_000;

/** What ships beside the manifest and the licences; everything in `dist` but the list of what was bundled. */
const shipped = [
  'README.md',
  'CHANGELOG.md',
  'language-configuration.json',
  'l10n',
  'media',
  'package.nls.json',
  'package.nls.es.json',
  'snippets',
  'walkthrough',
];

/** Builds and packages the extension; gives the path of the archive. */
export async function makePackage() {
  await build();
  return pack();
}

/** Packages the extension as it was built last. */
export function pack() {
  const archive = join(root, 'out', 'quarrel.vsix');
  const stage = mkdtempSync(join(tmpdir(), 'quarrel-vsix-'));
  try {
    fill(stage);
    mkdirSync(dirname(archive), { recursive: true });
    rmSync(archive, { force: true });
    run('node', [join(root, '.scripts', 'create-vsix.mjs'), stage, archive]);
  } finally {
    rmSync(stage, { recursive: true, force: true });
  }
  const { size } = statSync(archive);
  if (size > mostBytes) {
    console.error(`out/quarrel.vsix has ${size} bytes; ${mostBytes} are the most it may have.`);
    process.exit(1);
  }
  console.log(`Packaged out/quarrel.vsix (${Math.round(size / 1000)} kB)`);
  return archive;
}

function fill(stage) {
  const { private: _, type: __, dependencies: ___, ...manifest } = read(join(extension, 'package.json'));
  writeFileSync(join(stage, 'package.json'), JSON.stringify(manifest));
  for (const name of shipped) cpSync(join(extension, name), join(stage, name), { recursive: true });
  // The folder holds nothing that must not ship; its maker wants to read that.
  writeFileSync(join(stage, '.vscodeignore'), '');
  const dist = join(extension, 'dist');
  mkdirSync(join(stage, 'dist'));
  for (const name of readdirSync(dist).filter((one) => one !== 'bundled.json')) {
    copyFileSync(join(dist, name), join(stage, 'dist', name));
  }
  copyFileSync(join(root, 'LICENSE'), join(stage, 'LICENSE.txt'));
  writeFileSync(join(stage, 'LICENSES-OF-PARTS.txt'), licencesOf(read(join(dist, 'bundled.json'))));
}

/** The licences of the packages that are part of the bundles, in full, as they ask for. */
function licencesOf(folders) {
  return folders
    .map((folder) => {
      const { name, version, license } = read(join(root, folder, 'package.json'));
      const file = readdirSync(join(root, folder)).find((one) => /^licen[cs]e/i.test(one));
      const text = file === undefined ? `Licence: ${license}` : readFileSync(join(root, folder, file), 'utf8').trim();
      return `${name} ${version}\n\n${text}\n`;
    })
    .join(`\n${'-'.repeat(80)}\n\n`);
}

function read(file) {
  return JSON.parse(readFileSync(file, 'utf8'));
}

if (process.argv[1] === import.meta.filename) await makePackage();
