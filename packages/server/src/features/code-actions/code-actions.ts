import { isSheetDocument } from '@quarrel/language';
import type { LangiumDocument } from 'langium';
import type { CodeAction, CodeActionParams } from 'vscode-languageserver';
import type { LanguageServices } from '../../services.js';
import { fixAll } from './fix-all.js';
import { quickFixes } from './quick-fixes.js';
import { rewrites } from './rewrites.js';

/** What the editor can do with an edit beyond replacing text. */
export interface EditSkills {
  /** Whether it can put the cursor into what it has put in. */
  readonly snippets: boolean;
}

/** What can be done at a place: mends and waivers of its findings, other ways to write it, and all plain slips of the sheet. */
export function codeActions(
  document: LangiumDocument,
  params: CodeActionParams,
  services: LanguageServices,
  skills: EditSkills,
): CodeAction[] {
  if (!isSheetDocument(document)) return [];
  const { only } = params.context;
  const makers = {
    quickfix: () => quickFixes(document, params, services, skills),
    'refactor.rewrite': () => rewrites(document, params),
    'source.fixAll.quarrel': () => fixAll(document, services),
  };
  return Object.entries(makers).flatMap(([kind, make]) => (isAsked(kind, only) ? make() : []));
}

/** An editor may ask for some kinds alone, or for a family of them: `refactor`. What mends a whole sheet is made only when asked for. */
function isAsked(kind: string, only: readonly string[] | undefined): boolean {
  if (only === undefined) return !kind.startsWith('source');
  return only.some((one) => kind === one || kind.startsWith(`${one}.`));
}
