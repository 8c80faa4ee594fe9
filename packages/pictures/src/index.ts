// What is asked, and what pictures share

export type { SourceRange } from '@quarrel/model';
// Two conditions as a grid
export type * from './coverage/coverage.js';
export { type CoverageOf, coverageOf } from './coverage/coverage-of.js';
// Holds against the temperature of the glass
export type * from './holds/holds.js';
export { type HoldsOf, holdsOf } from './holds/holds-of.js';
export type * from './picked.js';
export type { Pictured } from './pictured.js';
export { supposeOf } from './suppose.js';
// One situation against the clock
export type * from './timeline/timeline.js';
export { type TimelineOf, timelineOf } from './timeline/timeline-of.js';
