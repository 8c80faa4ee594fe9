// Values that depend on the situation
export { type ByScenario, levelOf, nodesOf, type Region } from './diagram/diagram.js';
export { sifted } from './diagram/sift.js';
export { type Bounds, type Mapping, type Operation, Outgrown, Store } from './diagram/store.js';
export type { Clock } from './run/clock.js';
// The lifted run
export { type Interpretation, type InterpretOptions, interpret } from './run/interpret.js';
export { type Numbering, numberingOf } from './run/numbering.js';
export type * from './run/questions.js';
export type * from './run/records.js';
// Situations: a procedure's conditions as axes, and regions in words
export { type Axis, actsUsed, axesOf, sizeOf } from './situations/axes.js';
export type { Cell } from './situations/cells.js';
export { readAgain } from './situations/read-again.js';
export { Situations, type Verdict } from './situations/situations.js';
