import { isSheetDocument, type SheetDocument } from '@quarrel/language';
import type { AstNode, LangiumDocument } from 'langium';
import type { Position, Range, SelectionRange, SelectionRangeParams } from 'vscode-languageserver';
import { contains } from '../check/places.js';
import { leafAt } from './cursor.js';

/** What a selection grows to, place by place: a word, its clause, its step, its stage, the procedure, the sheet. */
export function selectionRanges(document: LangiumDocument, { positions }: SelectionRangeParams): SelectionRange[] {
  return positions.map((position) =>
    isSheetDocument(document) ? growing(document, position) : { range: point(position) },
  );
}

function growing(document: SheetDocument, position: Position): SelectionRange {
  const { textDocument } = document;
  const whole = { start: { line: 0, character: 0 }, end: textDocument.positionAt(textDocument.getText().length) };
  const ranges = [whole];
  const leaf = leafAt(document, position);
  const inner: Range[] = [];
  if (leaf !== undefined) {
    if (leaf.tokenType.name === 'STRING') inner.push(...insideQuotes(leaf.range, leaf.text));
    inner.push(leaf.range);
    for (let node: AstNode | undefined = leaf.astNode; node !== undefined; node = node.$container) {
      if (node.$cstNode !== undefined) inner.push(node.$cstNode.range);
    }
  }
  for (const range of inner.reverse()) {
    const around = ranges.at(-1) ?? whole;
    if (contains(range, position) && isInside(range, around)) ranges.push(range);
  }
  let selection: SelectionRange | undefined;
  for (const range of ranges) selection = selection === undefined ? { range } : { range, parent: selection };
  return selection ?? { range: whole };
}

function insideQuotes({ start, end }: Range, text: string): readonly Range[] {
  if (start.line !== end.line || text.length < 3 || !text.endsWith('"')) return [];
  return [
    {
      start: { line: start.line, character: start.character + 1 },
      end: { line: end.line, character: end.character - 1 },
    },
  ];
}

function isInside(inner: Range, outer: Range): boolean {
  const isSame =
    inner.start.line === outer.start.line &&
    inner.start.character === outer.start.character &&
    inner.end.line === outer.end.line &&
    inner.end.character === outer.end.character;
  return !isSame && contains(outer, inner.start) && contains(outer, inner.end);
}

function point(position: Position): Range {
  return { start: position, end: position };
}
