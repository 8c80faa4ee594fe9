import { formatText, isSheetDocument } from '@quarrel/language';
import type { LangiumDocument } from 'langium';
import type { Formatter } from 'langium/lsp';
import type { TextEdit } from 'vscode-languageserver';
import { declarationAround } from '../place/place.js';
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

  /**
   * The line that was just ended, or the line up to the brace or the `;` that was typed. The new line is left to the editor.
   * Only the declaration around it is read: nobody waits for the rest.
   */
  formatDocumentOnType(document, { position, ch }) {
    const { textDocument } = document;
    const line = ch === '\n' ? position.line - 1 : position.line;
    const from = textDocument.offsetAt({ line, character: 0 });
    const to = ch === '\n' ? lineEnd(textDocument.getText(), from) : textDocument.offsetAt(position) - ch.length;
    if (!isSheetDocument(document) || to < from) return [];
    const part = declarationAround(document, to);
    return textEdits(
      document,
      editsOf(document, part).filter(({ start, end }) => from <= start && end <= to),
    );
  },

  get formatOnTypeOptions() {
    return { firstTriggerCharacter: '}', moreTriggerCharacter: ['\n', ';'] };
  },
};

/** The edits of a sheet, or of a part that begins and ends with a line. */
function editsOf(
  { textDocument }: LangiumDocument,
  part?: { readonly from: number; readonly to: number },
): readonly GapEdit[] {
  const whole = textDocument.getText();
  const { from, to } = part ?? { from: 0, to: whole.length };
  const text = whole.slice(from, to);
  const formatted = formatText(text);
  if (formatted.problems.length > 0) return [];
  return gapEdits(text, formatted.text).map((edit) => ({ ...edit, start: edit.start + from, end: edit.end + from }));
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
