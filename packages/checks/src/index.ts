// Checking

// The rules
export { ruleCatalogue } from './catalogue.js';
export { type CheckOptions, type CheckReport, checkSheets, type ProcedureReport } from './check.js';
// What is found
export type { Edit, Finding, Mend, PathStep, Related, Situation, WaivedFinding } from './finding.js';
export { Memory } from './memory.js';
// Edits that no finding asks for by itself
export { conversionsOf } from './mends/conversions.js';
export { type Waiving, waiversFor } from './mends/waiving.js';
// What estimates are made from: fills, the steps that press, the assumptions
export { assumedLines, glassReading } from './process/assumed.js';
export { type Fill, fillingSteps, timeToFill } from './process/fills.js';
export { type Press, type Pressed, pressesOf, type Told, type Turn, toldOf } from './process/presses.js';
export type { Family, RuleCard } from './rule.js';
export { type Silent, silencesOf } from './silences.js';
// Tests, and what rules ask, in the language's own words
export { patternInWords, testInWords } from './words.js';
