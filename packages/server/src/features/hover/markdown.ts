import type { SourceRange } from '@quarrel/model';

/**
 * A text of a sheet as it is: whatever looks like markup in it stays text. Line breaks become spaces. It may stand anywhere but
 * at the beginning of a line.
 */
export function plain(text: string): string {
  return text.replace(/\s+/g, ' ').replace(/[\\`*_{}[\]<>&~|#$]/g, '\\$&');
}

/** Paragraphs of a doc comment, each as it is; none where there is no comment. */
export function paragraphs(text: string | undefined): readonly string[] {
  return (text ?? '')
    .split(/\n\s*\n/)
    .map((part) => part.trim())
    .filter((part) => part !== '')
    .map((part) => plain(part).replace(/^([-+=]|\d+[.)])/, '\\$1'));
}

/** Words of the language. */
export function code(text: string): string {
  const flat = text.replace(/\s+/g, ' ');
  const longest = Math.max(0, ...[...flat.matchAll(/`+/g)].map(([ticks]) => ticks.length));
  if (longest === 0) return `\`${flat}\``;
  const fence = '`'.repeat(longest + 1);
  return `${fence} ${flat} ${fence}`;
}

/** A text that leads to a place. */
export function linkTo(text: string, { uri, start }: Pick<SourceRange, 'uri' | 'start'>): string {
  return link(text, `${uri}#L${start.line + 1},${start.column + 1}`);
}

export function link(text: string, uri: string): string {
  return `[${plain(text)}](${uri.replace(/[()<> ]/g, (sign) => encodeURIComponent(sign).replace('(', '%28').replace(')', '%29'))})`;
}

/** A picture in words of SVG, and what it shows for people who do not see it. */
export function picture(alt: string, svg: string): string {
  // Base64 is of bytes; what is not in ASCII stands as XML writes it.
  const ascii = svg.replace(/[^ -~]/gu, (sign) => `&#${sign.codePointAt(0)};`);
  return `![${plain(alt)}](data:image/svg+xml;base64,${btoa(ascii)})`;
}

/** A block of code as the editor colours it. */
export function block(text: string): string {
  return `\`\`\`quarrel\n${text}\n\`\`\``;
}

/** Parts under one another, without those that are empty. */
export function page(parts: readonly (string | undefined)[]): string {
  return parts.filter((part) => part !== undefined && part !== '').join('\n\n');
}

/** A list, under a heading of plain words; nothing where it has no entries. */
export function list(heading: string, entries: readonly string[]): string | undefined {
  return entries.length === 0 ? undefined : `${heading}\n${entries.map((entry) => `- ${entry}`).join('\n')}`;
}

/** `a, b or c`. */
export function either(words: readonly string[]): string {
  return words.length < 2 ? words.join() : `${words.slice(0, -1).join(', ')} or ${words[words.length - 1]}`;
}

export function capital(text: string): string {
  return text.charAt(0).toUpperCase() + text.slice(1);
}
