// Places in texts

// Identity
export { isSame, runsAlike } from './alike.js';
export { digestOf, shortDigest } from './digest.js';
export { isoDuration, spokenDuration } from './duration.js';
// Labels where there is little room
export { shortLabel } from './labels.js';
// Names that are nearly another
export { nearest } from './nearest.js';
// A sheet, and what is wrong with its text
export type { Problem } from './problem.js';
// What is done
export type * from './procedure.js';
export { formatSi, fromSi, type Quantity, type Span, settle, toSi } from './quantity.js';
export type { Scenario } from './scenario.js';
export type { Sheet } from './sheet.js';
export type { Position, Sourced, SourceRange } from './source.js';
// What can be spoken of
export { type Comparison, subjectsOf, type Test } from './test.js';
// Quantities
export { type Dimension, type Unit, unitNamed, units, unitsOf } from './units.js';
export type * from './vocabulary.js';
export { blocksOf, flowIn, stepsOf } from './walk.js';
