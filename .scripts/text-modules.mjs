// Files of text as modules: `import sheets from 'text:packages/trade/sheets/*.quarrel'` gives a record from each file's path,
// relative to the repository, to its text. One mechanism for the bundler and for the test runner.
import { readdirSync, readFileSync } from 'node:fs';
import { basename, dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';

const root = join(dirname(fileURLToPath(import.meta.url)), '..');
const prefix = 'text:';

/** The source of the module for one pattern, whose last part may hold one `*`, and the files it was made of. */
function moduleFor(specifier) {
  const pattern = specifier.slice(prefix.length);
  const [start = '', end = ''] = basename(pattern).split('*');
  const folder = dirname(pattern);
  const files = readdirSync(join(root, folder))
    .filter((name) => name.startsWith(start) && name.endsWith(end))
    .sort()
    .map((name) => `${folder}/${name}`);
  const texts = Object.fromEntries(files.map((file) => [file, readFileSync(join(root, file), 'utf8')]));
  return { contents: `export default ${JSON.stringify(texts)};`, files: files.map((file) => join(root, file)) };
}

/** For esbuild. */
export const bundledTexts = {
  name: 'text-modules',
  setup(build) {
    build.onResolve({ filter: /^text:/ }, ({ path }) => ({ path, namespace: 'text-modules' }));
    build.onLoad({ filter: /.*/, namespace: 'text-modules' }, ({ path }) => {
      const { contents, files } = moduleFor(path);
      return { contents, loader: 'js', watchFiles: files };
    });
  },
};

/** For Vite, and so for Vitest. */
export const servedTexts = {
  name: 'text-modules',
  enforce: 'pre',
  resolveId: (id) => (id.startsWith(prefix) ? `\0${id}` : null),
  load(id) {
    if (!id.startsWith(`\0${prefix}`)) return null;
    const { contents, files } = moduleFor(id.slice(1));
    for (const file of files) this.addWatchFile(file);
    return contents;
  },
};
