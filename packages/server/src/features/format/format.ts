import { formatText } from '@quarrel/language';
import type { LangiumDocument } from 'langium';
import type { Formatter } from 'langium/lsp';
import type { TextEdit } from 'vscode-languageserver';
import { type GapEdit, gapEdits } from './gaps.js';

/**
 * The house style, as few edits as it takes. It has one indentation, so that the editor's own is not asked for. A sheet that
 * cannot be read completely is left alone.
 */
export const formatter: Formatter = {
  formatDocument: (document) => textEdits(document, editsOf(document)),

  /** What lies within the range; every edit keeps the words as they are, so that a part of them can be made alone. */
  formatDocumentRange(document, { range }) {
    const [from, to] = [document.textDocument.offsetAt(range.start), document.textDocument.offsetAt(range.end)];
    return textEdits(
      document,
      editsOf(document).filter(({ start, end }) => from <= start && end <= to),
    );
  },

  /** The line that was just ended, or the line up to the brace or the `;` that was typed. The new line is left to the editor. */
  formatDocumentOnType(document, { position, ch }) {
    const { textDocument } = document;
    const line = ch === '\n' ? position.line - 1 : position.line;
    const from = textDocument.offsetAt({ line, character: 0 });
    const to = ch === '\n' ? lineEnd(textDocument.getText(), from) : textDocument.offsetAt(position) - ch.length;
    return textEdits(
      document,
      editsOf(document).filter(({ start, end }) => from <= start && end <= to),
    );
  },

  get formatOnTypeOptions() {
    return { firstTriggerCharacter: '}', moreTriggerCharacter: ['\n', ';'] };
  },
};

function editsOf({ textDocument }: LangiumDocument): readonly GapEdit[] {
  const text = textDocument.getText();
  const formatted = formatText(text);
  if (formatted.problems.length > 0) return [];
  return gapEdits(text, formatted.text) ?? [{ start: 0, end: text.length, text: formatted.text }];
}

function textEdits({ textDocument }: LangiumDocument, edits: readonly GapEdit[]): TextEdit[] {
  return edits.map(({ start, end, text }) => ({
    range: { start: textDocument.positionAt(start), end: textDocument.positionAt(end) },
    newText: text,
  }));
}

function lineEnd(text: string, from: number): number {
  const end = text.indexOf('\n', from);
  return end < 0 ? text.length : text[end - 1] === '\r' ? end - 1 : end;
}
