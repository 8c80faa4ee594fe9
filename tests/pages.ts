import { readdirSync } from 'node:fs';
import { join } from 'node:path';

const root = new URL('..', import.meta.url).pathname;

/** Every page in Markdown that readers of the repository meet, by path from its root. */
export const pagesOf = {
  root,
  all(): readonly string[] {
    const within = (folder: string): readonly string[] =>
      readdirSync(join(root, folder), { recursive: true, encoding: 'utf8' })
        .filter((file) => file.endsWith('.md'))
        .map((file) => `${folder}/${file}`);
    return ['README.md', 'DEVELOPERS.md', ...within('docs'), ...within('examples')].sort();
  },
};
