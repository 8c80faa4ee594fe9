/** From the least to the most, in seconds; `most` may be infinite. */
export interface Times {
  readonly least: number;
  readonly most: number;
}

/**
 * What a run says, laid flat: one line for every record, and for it the situations (by their number in the cells) in which
 * it is so, or the times in each. A line that is missing is so nowhere.
 */
export interface Facts {
  readonly where: Map<string, Set<number>>;
  readonly clocks: Map<string, Map<number, Times>>;
  /** Times over all situations. */
  readonly spans: Map<string, Times>;
}

export function noFacts(): Facts {
  return { where: new Map(), clocks: new Map(), spans: new Map() };
}

export function noteWhere(facts: Facts, line: string, cell: number): void {
  const found = facts.where.get(line);
  if (found === undefined) facts.where.set(line, new Set([cell]));
  else found.add(cell);
}

export function noteClock(facts: Facts, line: string, cell: number, times: Times): void {
  let found = facts.clocks.get(line);
  if (found === undefined) {
    found = new Map();
    facts.clocks.set(line, found);
  }
  const before = found.get(cell);
  found.set(cell, before === undefined ? times : both(before, times));
}

export function noteSpan(facts: Facts, line: string, times: Times): void {
  const before = facts.spans.get(line);
  facts.spans.set(line, before === undefined ? times : both(before, times));
}

/** From the least of the two to the most of the two. */
export function both(a: Times, b: Times): Times {
  return { least: Math.min(a.least, b.least), most: Math.max(a.most, b.most) };
}

/** The names of the lines; where two sides have to speak of the same record, both take the name from here. */
export const lines = {
  covered: 'covered',
  reached: (moment: string) => `${moment}: reached`,
  clock: (moment: string) => `${moment}: clock`,
  state: (moment: string, state: string, value: string) => `${moment}: ${state} can be ${value}`,
  mayNotKnow: (moment: string, condition: string) => `${moment}: ${condition} may not be known`,
  before: (step: number) => `step ${step}, start`,
  after: (step: number) => `step ${step}, behind`,
  end: 'end',
  act: (step: number, effect: number) => `step ${step}, effect ${effect}: act reached`,
  unmet: (step: number, effect: number, need: number) => `step ${step}, effect ${effect}: need ${need} unmet`,
  unannounced: (step: number, effect: number, hazard: string) =>
    `step ${step}, effect ${effect}: ${hazard} not announced`,
  mayHaveDone: (step: number, effect: number, act: string) => `step ${step}, effect ${effect}: may have done ${act}`,
  mayNotHaveDone: (step: number, effect: number, act: string) =>
    `step ${step}, effect ${effect}: may not have done ${act}`,
  late: (step: number, effect: number, response: number) => `step ${step}, effect ${effect}: late for ${response}`,
  unanswered: (step: number, effect: number, response: number) =>
    `step ${step}, effect ${effect}: unanswered for ${response}`,
  breach: (rule: number, step: number, effect: number) => `rule ${rule} broken at step ${step}, effect ${effect}`,
  breachAtEnd: (rule: number) => `rule ${rule} broken at the end`,
  outlasted: (step: number) => `step ${step}: hold outlasted`,
  meanwhile: (step: number) => `step ${step}: time of what is done meanwhile`,
  thing: (step: number, effect: number) => `step ${step}, effect ${effect}: thing reached`,
  takes: (step: number, effect: number, thing: string) => `step ${step}, effect ${effect}: takes ${thing}`,
  choiceCase: (step: number, effect: number, one: number) => `step ${step}, effect ${effect}: case ${one} holds`,
  rest: (step: number, effect: number) => `step ${step}, effect ${effect}: no case holds`,
  gap: (step: number, effect: number) => `step ${step}, effect ${effect}: gap`,
  clash: (step: number, effect: number, earlier: number, later: number) =>
    `step ${step}, effect ${effect}: cases ${earlier} and ${later} clash`,
  choiceUnread: (step: number, effect: number, condition: string) =>
    `step ${step}, effect ${effect}: choice asks ${condition} unread`,
  asked: (one: number) => `case ${one}: asked`,
  holds: (one: number) => `case ${one}: holds`,
  unread: (one: number, condition: string) => `case ${one}: asks ${condition} unread`,
  fallthrough: (when: number) => `when ${when}: no case holds`,
  entered: (repeat: number) => `repeat ${repeat}: entered`,
  passed: (repeat: number) => `repeat ${repeat}: passed`,
  repeatTime: (repeat: number) => `repeat ${repeat}: time`,
  stopped: (by: string) => `${by}: stops`,
  stopClock: (by: string) => `${by}: clock when it stops`,
  finalUnmet: (test: number) => `end: final test ${test} unmet`,
} as const;
