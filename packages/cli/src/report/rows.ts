import { widthOf } from './width.js';

/** The columns a line of text output has at most, on a terminal or in a file. */
export const lineWidth = 100;

/** Breaks a text between words, so that no line is wider than `width` unless a word is. */
export function wrapped(text: string, width: number): readonly string[] {
  const lines: string[] = [];
  let line = '';
  for (const word of text.split(/\s+/).filter((part) => part !== '')) {
    if (line !== '' && widthOf(line) + 1 + widthOf(word) > width) {
      lines.push(line);
      line = word;
    } else {
      line = line === '' ? word : `${line} ${word}`;
    }
  }
  return line === '' ? lines : [...lines, line];
}

const labelWidth = 13;

/** A label at the left and paragraphs beside it, each beginning on a line of its own. */
export function row(label: string, paragraphs: readonly string[], paint: (label: string) => string): string {
  const lines = paragraphs.flatMap((paragraph) => wrapped(paragraph, lineWidth - 2 - labelWidth));
  return lines
    .map((line, index) => {
      const left = index === 0 ? paint(label) + ' '.repeat(labelWidth - label.length) : ' '.repeat(labelWidth);
      return `  ${left}${line}\n`;
    })
    .join('');
}
