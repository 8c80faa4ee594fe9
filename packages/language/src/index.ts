// Reading sheets, and writing them in the house style

export { nearest } from '@quarrel/model';
export { type Formatted, formatText } from './format/format-text.js';
// For those who build on the syntax tree: an editor
export * as ast from './generated/ast.js';
export { QuarrelGeneratedModule, QuarrelGeneratedSharedModule } from './generated/module.js';
export { documentationOf, Places } from './lower/places.js';
export { type PropertyShape, propertyShapes } from './lower/properties.js';
export { type Lowering, nodesReferredIn } from './lower/sheets.js';
export { type AssumedShape, topics } from './lower/topics.js';
export { isWithin, resolveUse, shippedName, shippedUri } from './names/addresses.js';
export { declaredIn, type Group, whatIs } from './names/groups.js';
export { createImports, type Imports, isSheetDocument, type Neighbours, type SheetDocument } from './names/imports.js';
export { SheetLinker } from './names/linker.js';
export { partsOf, procedureAround } from './names/parts.js';
export { stepsIn, type VisibleNames } from './names/visible.js';
export { parseTest } from './read/parse-test.js';
export { type ReadOptions, type ReadResult, readSheets } from './read/read-sheets.js';
export type { SheetSource, SheetText } from './read/source.js';
export { createQuarrelServices, type QuarrelAddedServices, QuarrelModule, type QuarrelServices } from './services.js';
