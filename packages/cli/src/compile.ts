// What compiling takes, behind one door: it is opened only by those who compile, so that the rest starts fast.
export { choose } from './compile/choose.js';
export { findingsAgainst, notCompiled, withWarnings } from './compile/errors.js';
export { checklistOf, fileName, render } from './compile/outputs.js';
export { supposedFor } from './compile/suppose.js';
export { surroundingsOf } from './report/report.js';
export { textOf } from './report/text.js';
export { countOf } from './report/whole.js';
export { readGathered } from './sheets/read.js';
