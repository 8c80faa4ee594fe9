import type { DeclaredRule, FlowRule, ProcessRule, RuleCard, SheetRule } from './rule.js';
import { alwaysTrue } from './rules/flow/always-true.js';
import { beyondLimits } from './rules/flow/beyond-limits.js';
import { clashInChoice } from './rules/flow/clash-in-choice.js';
import { coversButAlwaysStops } from './rules/flow/covers-but-always-stops.js';
import { deadCase } from './rules/flow/dead-case.js';
import { gapInChoice } from './rules/flow/gap-in-choice.js';
import { goalNeverMade } from './rules/flow/goal-never-made.js';
import { hazardUnannounced } from './rules/flow/hazard-unannounced.js';
import { holdBackwards } from './rules/flow/hold-backwards.js';
import { holdWithoutLimit } from './rules/flow/hold-without-limit.js';
import { meanwhileOutlastsHold } from './rules/flow/meanwhile-outlasts-hold.js';
import { neverTrue } from './rules/flow/never-true.js';
import { reasonMissing } from './rules/flow/reason-missing.js';
import { repeatWithoutExit } from './rules/flow/repeat-without-exit.js';
import { staleWaiver } from './rules/flow/stale-waiver.js';
import { tooTangled } from './rules/flow/too-tangled.js';
import { unreachableStep } from './rules/flow/unreachable-step.js';
import { unreadCondition } from './rules/flow/unread-condition.js';
import { heatedTooFast } from './rules/process/heated-too-fast.js';
import { holdShorterThanFill } from './rules/process/hold-shorter-than-fill.js';
import { openTooLong } from './rules/process/open-too-long.js';
import { outsideWorkingRange } from './rules/process/outside-working-range.js';
import { underdosedCure } from './rules/process/underdosed-cure.js';
import { vacuumOutOfReach } from './rules/process/vacuum-out-of-reach.js';
import { wetGlass } from './rules/process/wet-glass.js';
import { absence } from './rules/sheets/absence.js';
import { final } from './rules/sheets/final.js';
import { hold } from './rules/sheets/hold.js';
import { precedence } from './rules/sheets/precedence.js';
import { response } from './rules/sheets/response.js';
import { unmetNeed } from './rules/sheets/unmet-need.js';
import { mixedAndOr } from './rules/text/mixed-and-or.js';
import { nameClash } from './rules/text/name-clash.js';
import { syntax } from './rules/text/syntax.js';
import { unitMissing } from './rules/text/unit-missing.js';
import { unknownName } from './rules/text/unknown-name.js';
import { unknownSheet } from './rules/text/unknown-sheet.js';
import { unknownUnit } from './rules/text/unknown-unit.js';
import { unusedDeclaration } from './rules/text/unused-declaration.js';
import { wrongDimension } from './rules/text/wrong-dimension.js';

/** One for each kind of problem that a text can have. */
export const textRules = [
  syntax,
  unknownName,
  unknownSheet,
  nameClash,
  mixedAndOr,
  unknownUnit,
  wrongDimension,
  unitMissing,
  unusedDeclaration,
] as const;

/** What can be told of a sheet without running it. */
export const sheetRules: readonly SheetRule[] = [repeatWithoutExit, holdWithoutLimit, holdBackwards, reasonMissing];

/** What the run of a procedure tells. */
export const flowRules: readonly FlowRule[] = [
  unreadCondition,
  alwaysTrue,
  neverTrue,
  gapInChoice,
  clashInChoice,
  deadCase,
  unreachableStep,
  goalNeverMade,
  meanwhileOutlastsHold,
  hazardUnannounced,
  coversButAlwaysStops,
  beyondLimits,
  unmetNeed,
];

/** What speaks for the rules that sheets declare. */
export const declaredRules: readonly DeclaredRule[] = [precedence, response, absence, final, hold];

/** What datasheets and assumptions tell of the process; estimates, all of them. */
export const processRules: readonly ProcessRule[] = [
  outsideWorkingRange,
  holdShorterThanFill,
  underdosedCure,
  openTooLong,
  wetGlass,
  heatedTooFast,
  vacuumOutOfReach,
];

/** Every rule that Quarrel itself has a name for; sheets add theirs. */
export const ruleCatalogue: readonly RuleCard[] = [
  ...textRules,
  ...sheetRules,
  ...flowRules,
  ...processRules,
  staleWaiver,
  tooTangled,
];
