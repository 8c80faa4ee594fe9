import { interpret } from '@quarrel/analysis';
import {
  type ChecklistStep,
  checklistToHtml,
  checklistToJson,
  checklistToMarkdown,
  compileProcedure,
  type FlowPart,
} from '@quarrel/checklist';
import { type Block, flowIn, type Procedure, type Scenario, type Test } from '@quarrel/model';
import fc from 'fast-check';
import { expect, test } from 'vitest';
import { procedures } from '../analysis/judge/arbitrary.js';
import { is, nowhere, span } from '../build.js';
import { compiled, expectValid } from './compiled.js';

test('in one situation that is looked at once nothing is left open but what could not be read', () => {
  fc.assert(
    fc.property(procedures(), (some) => {
      fc.pre(!looksTwice(some));
      const whole = interpret(some);
      fc.pre(whole.kind === 'run');
      const one = whole.run.situations.typical(whole.run.covered);
      fc.pre(one !== undefined);
      const { steps, flow } = compiled(some, { suppose: testsOf(one) });
      for (const { things } of steps) {
        for (const thing of things) expect(thing.options.length).toBeLessThan(2);
      }
      for (const { cases } of branchesIn(flow)) {
        for (const { circumstance } of cases) expect(circumstance.text).toContain('could not be read');
      }
    }),
    { numRuns: 300 },
  );
});

test('in one situation that is looked at once the kit is what its steps take, pass by pass', () => {
  fc.assert(
    fc.property(procedures(), (some) => {
      fc.pre(!looksTwice(some));
      const measured = withAmounts(some);
      const whole = interpret(measured);
      fc.pre(whole.kind === 'run');
      const one = whole.run.situations.typical(whole.run.covered);
      fc.pre(one !== undefined);
      const { steps, flow, kit } = compiled(measured, { suppose: testsOf(one) });
      fc.pre(branchesIn(flow).length === 0);
      const taken = takenIn(flow, steps);
      expect(kit.things.map(({ name }) => name).sort()).toEqual([...taken.keys()].sort());
      for (const { name, uses } of kit.things) {
        const amount = uses[0]?.amounts[0];
        expect([amount?.least?.value, amount?.most?.value ?? Number.POSITIVE_INFINITY]).toEqual(taken.get(name));
      }
    }),
    { numRuns: 300 },
  );
});

/** Whether a condition may be looked at again, and come out another way than supposed. */
function looksTwice({ body }: Procedure): boolean {
  const looks = (block: Block): readonly string[] =>
    [...flowIn(block)].flatMap((part) =>
      part.kind === 'step' ? part.effects.flatMap((effect) => ('condition' in effect ? [effect.condition] : [])) : [],
    );
  const again = [...flowIn(body)].some((part) => part.kind === 'repeat' && looks(part.body).length > 0);
  return again || new Set(looks(body)).size < looks(body).length;
}

/** Every thing of the procedure taken by 2 to 3 drops. */
function withAmounts(some: Procedure): Procedure {
  return JSON.parse(JSON.stringify(some), (_, value) =>
    value?.kind === 'with' ? { ...value, amount: span(2, 3, 'drops') } : value,
  );
}

/** The least and the most drops of each thing, counted step by step. */
function takenIn(flow: readonly FlowPart[], steps: readonly ChecklistStep[]): Map<string, [number, number]> {
  const taken = new Map<string, [number, number]>();
  const count = (parts: readonly FlowPart[], most: number): void => {
    for (const part of parts) {
      if (part.kind === 'stage') count(part.body, most);
      if (part.kind === 'repeat') count(part.body, most * (part.atMost ?? Number.POSITIVE_INFINITY));
      if (part.kind !== 'step') continue;
      const things = steps.find(({ id }) => id === part.step)?.things ?? [];
      for (const { name } of things.flatMap(({ options }) => options)) {
        const [least, highest] = taken.get(name) ?? [0, 0];
        taken.set(name, [least + 2, highest + 3 * most]);
      }
      count(part.meanwhile, most);
    }
  };
  count(flow, 1);
  return taken;
}

function branchesIn(flow: readonly FlowPart[]): readonly Extract<FlowPart, { kind: 'branch' }>[] {
  return flow.flatMap((part) => {
    if (part.kind === 'step') return branchesIn(part.meanwhile);
    if (part.kind === 'stop') return [];
    if (part.kind !== 'branch') return branchesIn(part.body);
    return [part, ...part.cases.flatMap(({ body }) => branchesIn(body)), ...branchesIn(part.otherwise?.body ?? [])];
  });
}

/** A situation as tests. */
function testsOf(scenario: Scenario): readonly Test[] {
  return Object.entries(scenario).map(([subject, value]): Test => {
    if (typeof value === 'string') return is(subject, value);
    const quantity = { dimension: 'temperature', si: value, text: `${value} K`, unit: 'K', range: nowhere } as const;
    return { kind: 'compare', subject, comparison: 'equal', quantity, range: nowhere };
  });
}

test('of any procedure the JSON is valid, the flow holds every step once, and outputs repeat', () => {
  fc.assert(
    fc.property(procedures(), (some) => {
      const result = compileProcedure(some);
      fc.pre(result.kind === 'checklist');
      const { checklist } = result;
      expectValid(JSON.parse(checklistToJson(checklist)));
      const ids = checklist.steps.map(({ id }) => id);
      expect(JSON.stringify(checklist.flow).match(/"step":"[^"]*"/g) ?? []).toEqual(ids.map((id) => `"step":"${id}"`));
      expect(new Set(checklist.steps.map(({ number }) => number)).size).toBe(ids.length);
      expect(checklistToHtml(compiled(some))).toBe(checklistToHtml(checklist));
      expect(checklistToMarkdown(checklist)).not.toMatch(/undefined|NaN|Infinity|\[object/);
    }),
    { numRuns: 150 },
  );
});
