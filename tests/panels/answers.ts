import { checklistToHtml, compileProcedure } from '@quarrel/checklist';
import {
  type CoverageQuestion,
  coverageOf,
  type HoldsQuestion,
  holdsOf,
  type Picked,
  type Pictured,
  timelineOf,
} from '@quarrel/pictures';
import type { ToPanel } from '../../packages/extension/src/panels/messages.js';

export type Show = Extract<ToPanel, { kind: 'show' }>;

function show({ procedure }: Pictured, answer: Show['answer'], suppose: readonly string[] = []): Show {
  return { kind: 'show', address: { uri: procedure.uri, procedure: procedure.name }, suppose, answer };
}

/** What the host says to a page of the timeline of a procedure. */
export function timelineShow(pictured: Pictured, picked: Picked): Show {
  return show(pictured, timelineOf(pictured, picked));
}

export function coverageShow(pictured: Pictured, question: CoverageQuestion): Show {
  return show(pictured, coverageOf(pictured, question));
}

export function holdsShow(pictured: Pictured, look: HoldsQuestion): Show {
  return show(pictured, holdsOf(pictured, look));
}

/** The checklist preview of what is supposed. */
export function checklistShow(pictured: Pictured, suppose: readonly string[]): Show {
  const { procedure, read } = pictured;
  const compiled = compileProcedure(procedure, { suppose: suppose.map(read) });
  if (compiled.kind !== 'checklist') throw new Error(`no checklist: ${compiled.kind}`);
  const text = checklistToHtml(compiled.checklist);
  return show(pictured, { kind: 'checklist', procedure: procedure.name, draft: false, text }, suppose);
}
