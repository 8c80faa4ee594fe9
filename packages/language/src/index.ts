// Reading sheets, and writing them in the house style

export { type Formatted, formatText } from './format/format-text.js';
// For those who build on the syntax tree: an editor
export * as ast from './generated/ast.js';
export { isWithin, shippedUri } from './names/addresses.js';
export { nearest } from './names/nearest.js';
export { parseTest } from './read/parse-test.js';
export { type ReadOptions, type ReadResult, readSheets } from './read/read-sheets.js';
export type { SheetSource, SheetText } from './read/source.js';
export { createQuarrelServices, type QuarrelAddedServices, QuarrelModule, type QuarrelServices } from './services.js';
