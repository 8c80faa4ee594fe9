// Writes what Langium makes of the grammar: packages/language/src/generated/ and syntaxes/. The outcome depends on the grammar
// and Langium's version alone, so it is committed, and `--check` says whether it is what the grammar yields today.
import { spawnSync } from 'node:child_process';
import { existsSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { coloursFor } from './colours.mjs';

const root = join(dirname(fileURLToPath(import.meta.url)), '..');
const language = join(root, 'packages', 'language');
const generated = join(language, 'src', 'generated');
const syntaxes = join(root, 'syntaxes');

/** Langium's generator needs Node 21 or later; the npm package `node` brings one whatever the machine has. */
const node24 = join(root, 'node_modules', 'node', 'bin', process.platform === 'win32' ? 'node.exe' : 'node');
const node = existsSync(node24) ? node24 : process.execPath;

function written() {
  const files = [generated, syntaxes].flatMap((folder) =>
    existsSync(folder) ? readdirSync(folder).map((name) => join(folder, name)) : [],
  );
  return new Map(files.map((file) => [file, readFileSync(file, 'utf8')]));
}

const before = written();
const result = spawnSync(
  node,
  [join(root, 'node_modules', 'langium-cli', 'bin', 'langium.js'), 'generate', '--file', 'langium-config.json'],
  { cwd: language, encoding: 'utf8' },
);
const said = `${result.stdout ?? ''}${result.stderr ?? ''}`;
const complaints = said.split('\n').filter((line) => /warning|error|ambigu/i.test(line));
if (result.status !== 0 || complaints.length > 0) {
  process.stderr.write(said);
  process.stderr.write('The grammar has to be free of errors and warnings.\n');
  process.exit(1);
}

// Langium gives all words of the language one colour, and takes `no` in the name `no-second-flex` for one of them; what it knows
// better than anyone is which words there are.
const coloursFile = join(syntaxes, 'quarrel.tmLanguage.json');
const words = JSON.parse(readFileSync(coloursFile, 'utf8'))
  .patterns.flatMap(({ match }) => /^\\b\((.*)\)\\b$/.exec(match ?? '')?.[1]?.split('|') ?? [])
  .sort((a, b) => b.length - a.length || (a < b ? -1 : 1));
writeFileSync(coloursFile, `${JSON.stringify(coloursFor(words), undefined, 2)}\n`);

const after = written();
const changed = [...after].filter(([file, text]) => before.get(file) !== text).map(([file]) => file);
if (process.argv.includes('--check') && changed.length > 0) {
  for (const file of changed) {
    const text = before.get(file);
    if (text === undefined) rmSync(file);
    else writeFileSync(file, text);
  }
  process.stderr.write(`Generated files are behind the grammar; run \`npm run generate\`:\n${changed.join('\n')}\n`);
  process.exit(1);
}
process.stdout.write(changed.length === 0 ? 'Generated files are up to date.\n' : `${changed.join('\n')}\n`);
