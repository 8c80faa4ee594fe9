/**
 * What may stand where the parser stopped, in the author's words. Keys are the grammar's rules; `end` is what a block expects
 * besides its `}`.
 */
export interface Expectation {
  /** What the rule as a whole is. */
  readonly whole?: string;
  /** The name it needs. */
  readonly name?: string;
  /** The text it needs. */
  readonly text?: string;
  /** What may stand in its block. */
  readonly inside?: string;
  /** The words that may begin what stands in its block. */
  readonly words?: readonly string[];
}

const flow = ['step', 'stage', 'when', 'repeat', 'stop'];
const aFlow = 'a step, `stage`, `when`, `repeat`, `stop`';
const clauses = 'do with takes hold observe read accept check caution note photo meanwhile waive'.split(' ');
const declarations =
  'use observation reading state hazard act rule tool resin lamp injector consumable limits assume procedure example variation'.split(
    ' ',
  );
const aSpan = 'a number with its unit, such as `15 s` or `15 s to 30 s`';
const aQuantity = 'a number with its unit, such as `15 s`';
const aTest = 'a test, such as `break is star`';
const aCondition = 'the name of a condition';
const anAct = 'the name of an act';
const aBlock: Expectation = { inside: aFlow, words: flow };

export const expectations: Readonly<Record<string, Expectation>> = {
  Sheet: { inside: 'a declaration, such as `procedure`, `act` or `rule`', words: declarations },
  Use: { text: 'the path of a sheet' },
  Observation: { name: 'a name for the observation' },
  Reading: { name: 'a name for the reading' },
  State: { name: 'a name for the state' },
  Value: { name: 'a value' },
  Hazard: { name: 'a name for the hazard', inside: '`wear`, `do`, `source`', words: ['wear', 'do', 'source'] },
  Signal: { whole: 'a signal word: `danger`, `warning`, `caution` or `notice`' },
  Measure: { text: 'what protects' },
  Act: {
    name: 'a name for the act',
    inside: '`needs`, `makes`, `raises`, `source`',
    words: ['needs', 'makes', 'raises', 'source', 'because', 'as'],
  },
  ActPart: { name: 'the name of a hazard', text: 'a source' },
  Need: { name: 'a name for the rule' },
  Reason: { text: 'a reason or a source' },
  StateValue: { name: 'a state and one of its values' },
  Rule: {
    name: 'a name for the rule',
    inside: 'what the rule asks, `because`, `source`, `severity`',
    words: ['because', 'source', 'severity', 'after', 'hold', 'when', 'at'],
  },
  Severity: { whole: '`error`, `warning` or `info`' },
  Precedence: { name: anAct },
  Response: { name: anAct },
  Absence: { name: anAct },
  HoldBound: { name: anAct, whole: '`least` or `most`' },
  Pattern: {
    whole:
      'what the rule asks: `A comes before B`, `after A, B follows`, `no A after B`, `at the end …` or `hold of A at least …`',
  },
  Thing: { name: 'a name', inside: 'a line of the datasheet, such as `vacuum 85 %`' },
  ThingKind: { whole: '`tool`, `resin`, `lamp`, `injector` or `consumable`' },
  Limits: { name: 'a name for the limits', inside: '`allows`', words: ['allows', 'when', 'because', 'source'] },
  Assume: {
    name: 'what is assumed about, such as `filling`',
    inside: '`during`, or what is assumed, such as `gap 3 µm`',
    words: ['during', 'when', 'because', 'source'],
  },
  During: { name: anAct },
  Assumed: { whole: 'a number with its unit, or the name of a reading' },
  Procedure: {
    name: 'a name for the procedure',
    inside: 'a step, `stage`, `when`, `covers`, `choose`',
    words: [...flow, 'revision', 'covers', 'within', 'caution', 'waive', 'choose'],
  },
  Revision: { text: 'the revision' },
  Covers: { inside: aTest },
  Within: { name: 'the name of a limits profile' },
  Caution: { whole: 'the name of a hazard, or a text in quotation marks' },
  Waive: { name: 'the name of a rule', text: 'the reason' },
  Choose: { name: 'a name for the choice', inside: '`when`, `otherwise`', words: ['when', 'otherwise'] },
  ChooseCase: { name: 'the name of what is chosen' },
  ChooseOtherwise: { name: 'the name of what is chosen' },
  Block: aBlock,
  Stage: { text: 'the name of the stage' },
  Stop: { text: 'the reason to stop' },
  OrElse: { text: 'the reason to stop' },
  Repeat: { text: 'the goal' },
  Step: {
    text: 'the text of the step',
    inside: 'what is done in the step (`do`, `hold`, `check`, `note` …)',
    words: clauses,
  },
  Do: { name: anAct },
  With: { name: 'the name of what is used' },
  Observe: { name: 'the name of an observation' },
  Read: { name: 'the name of a reading' },
  Check: { text: 'what must be seen' },
  Note: { text: 'the note' },
  Photo: { text: 'what the picture shows' },
  Test: { whole: aTest },
  Atom: { whole: aTest },
  Comparison: { name: aCondition },
  Quantity: { whole: aQuantity },
  Amount: { whole: aQuantity },
  Span: { whole: aSpan },
  Example: {
    name: 'the name of a procedure',
    whole: 'a name or a text for the example',
    inside: '`suppose`, `uses`, `has step`, `lacks step`, `lasts`, `stops`',
    words: ['suppose', 'uses', 'has', 'lacks', 'lasts', 'stops'],
  },
  Uses: { name: 'the name of what is used' },
  HasStep: { whole: 'the name or the text of a step' },
  LacksStep: { whole: 'the name or the text of a step' },
  Variation: {
    name: 'a name',
    inside: '`use`, `in step`, `after step`, `before step`, `instead of step`, `omit step`, `covers`',
    words: ['use', 'in', 'after', 'before', 'instead', 'omit', 'covers', 'revision', 'within', 'choose'],
  },
  Exchange: { name: 'the name of a thing' },
  InStep: { name: 'the name of a step', inside: 'what is done in the step', words: clauses },
  BesideStep: { name: 'the name of a step' },
  InsteadOfStep: { name: 'the name of a step' },
  OmitStep: { name: 'the name of a step', text: 'the reason' },
};
