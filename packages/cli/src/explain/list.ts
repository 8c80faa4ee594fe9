import colours from 'picocolors';
import type { Explanation } from './explanation.js';

/** Every rule in a line, under a heading for each group. */
export function listText(all: readonly Explanation[], isColoured: boolean): string {
  const { bold } = colours.createColors(isColoured);
  const width = Math.max(...all.map(({ name }) => name.length)) + 2;
  const groups = [...new Set(all.map(({ group }) => group))];
  return groups
    .map((group) => {
      const lines = all
        .filter((one) => one.group === group)
        .map(({ name, title }) => `  ${name.padEnd(width)}${title}\n`);
      return `${bold(group)}\n\n${[...new Set(lines)].join('')}`;
    })
    .join('\n');
}
