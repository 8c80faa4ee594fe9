// The command as a function
export type { Entry, Failed, Files, Look } from './files/files.js';
export { nodeFiles } from './files/node.js';
export type { ExitCode, Io, Output } from './io.js';
// Findings in words
export { type Surroundings, textOf } from './report/text.js';
export { run } from './run.js';
