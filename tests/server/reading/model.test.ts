import { testInWords } from '@quarrel/checks';
import { declaredIn, type SheetDocument } from '@quarrel/language';
import { type Act, spokenDuration, stepsOf } from '@quarrel/model';
import { shippedSheets } from '@quarrel/trade';
import { type AstNode, GrammarUtils } from 'langium';
import { beforeAll, describe, expect, test } from 'vitest';
import { createWorld, exampleText, type World } from '../harness.js';
import { hoverAt } from './asking.js';

let world: World;
let chip: SheetDocument;

beforeAll(async () => {
  world = await createWorld();
  const sheets = await world.openAll({
    equipment: exampleText('school/equipment'),
    'house-rules': exampleText('school/house-rules'),
    'stone-chip': exampleText('school/stone-chip'),
  });
  chip = sheets.get('stone-chip') ?? world.sheet('stone-chip');
});

/** A text without the signs that keep markup from being read. */
function bare(text: string): string {
  return text.replace(/\\(.)/g, '$1');
}

async function hoverOfName(document: SheetDocument, node: AstNode): Promise<string> {
  const name = GrammarUtils.findNodeForProperty(node.$cstNode, 'name');
  if (name === undefined) throw new Error('a declaration has a name');
  return bare(await hoverAt(world, document, name.range.start));
}

/** What a reader has to find of an act. */
function factsOf({ label, needs, makes, documentation, source }: Act): readonly string[] {
  return [
    label,
    ...needs.flatMap(({ test: asked, rule, because }) => [testInWords(asked), rule ?? '', because ?? '']),
    ...makes.map(({ state, value }) => `${state} ${value}`),
    (documentation ?? '').replace(/\s+/g, ' '),
    source ?? '',
  ];
}

describe('what ships tells all that its model says', () => {
  test.each(Object.keys(shippedSheets))('%s', async (name) => {
    const document = world.sheet(`quarrel:${name}`);
    for (const { node, group } of declaredIn(document.parseResult.value)) {
      if (group === 'procedure' || group === 'example') continue;
      const text = await hoverOfName(document, node);
      const meaning = world.services.quarrel.meaning.Lowering.declaredBy(document, node);
      const facts = ((): readonly string[] => {
        switch (meaning?.kind) {
          case 'act':
            return factsOf(meaning);
          case 'observation':
          case 'state':
            return [meaning.label, ...meaning.values.flatMap((value) => [value.name, value.label])];
          case 'reading':
            return [meaning.label, `${meaning.low.text} to ${meaning.high.text}`];
          case 'hazard':
            return [
              meaning.signal.toUpperCase(),
              meaning.label,
              ...meaning.measures.map((one) => one.text),
              meaning.source ?? '',
            ];
          case 'rule':
            return [meaning.label, meaning.severity, meaning.because ?? '', meaning.source ?? ''];
          case 'limits':
            return [meaning.label, ...meaning.allowances.flatMap((one) => [testInWords(one.test), one.because ?? ''])];
          default:
            return [node.name ?? 'a name'];
        }
      })();
      for (const fact of facts) expect(text).toContain(fact);
    }
  });

  test('acts name the hazards that they raise', async () => {
    const document = world.sheet('quarrel:laminated-glass-acts');
    const hazards = world.services.quarrel.check.Checks.sheetOf(chip).procedures[0]?.vocabulary.hazards ?? [];
    let raised = 0;
    for (const { node } of declaredIn(document.parseResult.value)) {
      const act = world.services.quarrel.meaning.Lowering.declaredBy(document, node);
      if (act?.kind !== 'act') continue;
      const text = await hoverOfName(document, node);
      for (const hazard of hazards.filter(({ name }) => act.raises.includes(name))) {
        expect(text).toContain(`${hazard.signal.toUpperCase()} ${hazard.label}`);
        raised += 1;
      }
    }
    expect(raised).toBeGreaterThan(10);
  });
});

test('every step of the standard tells its window on the clock, and where it runs', async () => {
  const report = world.services.quarrel.check.Checks.ofProcedure(chip, 'stone-chip');
  if (report?.interpretation.kind !== 'run') throw new Error('the standard can be run');
  const { run } = report.interpretation;
  const steps = stepsOf(report.procedure);
  expect(steps.length).toBeGreaterThan(40);
  for (const [at, step] of steps.entries()) {
    const { line, column } = step.range.start;
    const text = bare(await hoverAt(world, chip, { line, character: column }));
    const reached = run.steps[at]?.before.reached ?? run.covered;
    const start = run.steps[at]?.before.clock.over(reached);
    expect(text).toContain(step.text);
    expect(text).toContain(`Starts at ${spokenDuration(start?.least ?? -1)}`);
    expect(text).toContain(
      reached === run.covered ? 'runs in every situation' : run.situations.describe(reached, run.covered),
    );
  }
});
