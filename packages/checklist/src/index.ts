// The compiled checklist
export type * from './checklist.js';
export {
  type Compiled,
  type CompileOptions,
  compileChecklist,
  compileProcedure,
} from './compile/compile.js';

// Renderers: they word the checklist and compute nothing
export { checklistToHtml } from './html/html.js';
export { checklistToJson } from './json.js';
export { checklistToMarkdown } from './markdown/markdown.js';

// What every output says
export { draftWarning, notice } from './notice.js';
