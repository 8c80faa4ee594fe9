import colours from 'picocolors';
import { lineWidth, wrapped } from '../report/rows.js';

/**
 * A page of `docs/rules` for a terminal: headings stand out, paragraphs and list entries are folded, code is set in. The pages
 * use headings, paragraphs, lists, fenced code, code in a line, emphasis and links, and nothing else.
 */
export function plainPage(page: string, isColoured: boolean): string {
  const { bold, cyan } = colours.createColors(isColoured);
  const inline = (text: string): string =>
    text
      .replace(/\[([^\]]*)\]\([^)]*\)/g, '$1')
      .replace(/\*\*([^*]+)\*\*/g, (_, words: string) => bold(words))
      .replace(/`([^`]+)`/g, (_, code: string) => (isColoured ? cyan(code) : code));
  const blocks: string[] = [];
  let paragraph: string[] = [];
  let code: string[] | undefined;
  const close = (): void => {
    if (paragraph.length > 0) blocks.push(folded(paragraph, inline));
    paragraph = [];
  };
  for (const line of page.split(/\r?\n/)) {
    if (code !== undefined) {
      if (line.startsWith('```')) {
        blocks.push(code.map((one) => (one === '' ? '\n' : `    ${one}\n`)).join(''));
        code = undefined;
      } else code.push(line);
    } else if (line.startsWith('```')) {
      close();
      code = [];
    } else if (line.startsWith('#')) {
      close();
      blocks.push(`${bold(line.replace(/^#+\s*/, ''))}\n`);
    } else if (line.trim() === '') {
      close();
    } else {
      if (/^\s*([-*]|\d+\.) /.test(line)) close();
      paragraph.push(line);
    }
  }
  close();
  return blocks.join('\n');
}

/** A paragraph or one entry of a list; what follows the first line of an entry is set in. */
function folded(lines: readonly string[], inline: (text: string) => string): string {
  const whole = lines.map((line) => line.trim()).join(' ');
  const sign = /^([-*]|\d+\.) /.exec(whole)?.[0] ?? '';
  const indent = ' '.repeat(sign.length);
  return wrapped(whole.slice(sign.length), lineWidth - sign.length)
    .map((line, index) => `${index === 0 ? sign : indent}${line}\n`)
    .map(inline)
    .join('');
}
