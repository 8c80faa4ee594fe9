import type {
  ChecklistCaution,
  ChecklistObservation,
  ChecklistReading,
  ChecklistStep,
  FlowPart,
} from '../checklist.js';
import {
  clockWords,
  elsewhereWords,
  holdWords,
  measureWords,
  passesWords,
  readingWords,
  sentence,
  signalWords,
  thingWords,
  timeWords,
} from '../wording.js';
import { escaped } from './escape.js';

type Lines = readonly string[];
type Part<Kind extends FlowPart['kind']> = Extract<FlowPart, { kind: Kind }>;

/** The blocks of a flow; stages become headings of `level`, what is conditional or repeated is quoted. */
export function flowLines(flow: readonly FlowPart[], steps: readonly ChecklistStep[], level: number): readonly Lines[] {
  const byId = new Map(steps.map((step) => [step.id, step]));

  const blocks = (parts: readonly FlowPart[], depth: number): readonly Lines[] =>
    parts.flatMap((part) => partBlocks(part, depth));

  const partBlocks = (part: FlowPart, depth: number): readonly Lines[] => {
    switch (part.kind) {
      case 'step': {
        const step = byId.get(part.step);
        return step === undefined ? [] : stepBlocks(step, blocks(part.meanwhile, depth));
      }
      case 'stage':
        return [[`${'#'.repeat(Math.min(depth, 6))} ${escaped(part.label)}`], ...blocks(part.body, depth + 1)];
      case 'branch':
        return branchBlocks(part, depth);
      case 'repeat':
        return [quotedBlocks([...repeatHead(part), ...blocks(part.body, depth), ...repeatEnd(part)])];
      case 'stop':
        return [[stopWords(part.reason)]];
    }
  };

  const branchBlocks = (part: Part<'branch'>, depth: number): readonly Lines[] => {
    const cases = part.cases.map(({ circumstance, body }, index) => {
      const title = `**${index === 0 ? 'If' : 'Otherwise, if'} ${escaped(circumstance.text)}:**`;
      return quotedBlocks([[title], ...(body.length === 0 ? [['Nothing to do.']] : blocks(body, depth))]);
    });
    if (part.otherwise === undefined) return cases;
    const title = `**Otherwise** (${escaped(part.otherwise.circumstance.text)})**:**`;
    return [...cases, quotedBlocks([[title], ...blocks(part.otherwise.body, depth)])];
  };

  return blocks(flow, level);
}

/** Cautions first, then the instruction, then what belongs to it. */
function stepBlocks(step: ChecklistStep, meanwhile: readonly Lines[]): readonly Lines[] {
  const { cautions, number, text, clock } = step;
  const item = [
    `- [ ] **${number}. ${escaped(text)}** (clock ${clockWords(clock)})`,
    ...detailLines(step).map((line) => `  - ${line}`),
  ];
  if (meanwhile.length > 0) {
    item.push('  - Meanwhile, during the hold:', '', ...indented(joinedBlocks(meanwhile), '    '));
  }
  return [...cautions.map((caution) => quoted([cautionLine(caution)])), item];
}

function detailLines(step: ChecklistStep): Lines {
  return [
    ...step.things.map((thing) => `With: ${escaped(thingWords(thing))}`),
    ...step.observations.flatMap(observationLines),
    ...step.readings.flatMap(readingLines),
    ...(step.takes === undefined ? [] : [`Hands on: ${timeWords(step.takes)}`]),
    ...(step.hold === undefined ? [] : [`**Hold: ${holdWords(step.hold)}**`]),
    ...step.checks.map(({ text, orElseStop }) => `See: ${escaped(text)}${ifNot('If not', orElseStop)}`),
    ...step.photos.map((text) => `Photo: ${escaped(text)}`),
    ...step.notes.map((text) => `Note: ${escaped(text)}`),
  ];
}

function observationLines(observation: ChecklistObservation): Lines {
  const { label, values } = observation;
  const covered = values.filter((value) => value.covered).map((value) => `[ ] ${escaped(value.label)}`);
  const elsewhere = elsewhereWords(observation);
  return [`Observe ${escaped(label)}: ${covered.join('  ')}`, ...(elsewhere === undefined ? [] : [escaped(elsewhere)])];
}

function readingLines(reading: ChecklistReading): Lines {
  const elsewhere = elsewhereWords(reading);
  return [
    `Read ${escaped(readingWords(reading))}; reading: ________${ifNot('Outside', reading.orElseStop)}`,
    ...(elsewhere === undefined ? [] : [escaped(elsewhere)]),
  ];
}

function ifNot(when: string, reason: string | undefined): string {
  return reason === undefined ? '' : `. ${when}: ${stopWords(reason)}`;
}

export function stopWords(reason: string): string {
  return `**STOP.** ${escaped(reason)}`;
}

function repeatHead({ until, atMost }: Part<'repeat'>): readonly Lines[] {
  const goal = until === undefined ? '' : `, until you see: ${escaped(until)}`;
  return [[`**Repeat ${passesWords(atMost)}${goal}**`]];
}

function repeatEnd({ until, atMost, orElseStop }: Part<'repeat'>): readonly Lines[] {
  const last = atMost === undefined || atMost === 1 ? 'If not' : `If not after ${atMost} passes`;
  if (until === undefined) return orElseStop === undefined ? [] : [[`${last}: ${stopWords(orElseStop)}`]];
  return [[`- [ ] Seen: ${escaped(until)}${ifNot(last, orElseStop)}`]];
}

/** Signal word, what can hurt, what protects. */
export function cautionLine(caution: ChecklistCaution): string {
  const measures = measureWords(caution);
  return `**${signalWords[caution.signal]}: ${escaped(sentence(caution.label))}** ${escaped(measures)}`.trim();
}

export function quoted(lines: Lines): Lines {
  return lines.map((line) => (line === '' ? '>' : `> ${line}`));
}

function quotedBlocks(blocks: readonly Lines[]): Lines {
  return quoted(joinedBlocks(blocks));
}

function joinedBlocks(blocks: readonly Lines[]): Lines {
  return blocks.flatMap((lines, index) => (index === 0 ? lines : ['', ...lines]));
}

function indented(lines: Lines, by: string): Lines {
  return lines.map((line) => (line === '' ? line : by + line));
}
