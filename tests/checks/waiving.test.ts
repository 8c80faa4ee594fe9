import { checkSheets, type Waiving, waiversFor } from '@quarrel/checks';
import { formatText } from '@quarrel/language';
import { describe, expect, test } from 'vitest';
import { applied, offsetOf } from './applied.js';
import { read } from './reading.js';

const sheet = `use "quarrel:laminated-glass"

procedure chip "Stone chip" {
  covers { break is star }

  step look "Look" {
    do assess
    observe break
  }
  step "Draw vacuum" { hold at least 1 min }
  stage "Cure" {
    step cure "Cure" {
      do cure
      hold 2 min to 1 min // Too short?
    }
    stop "Here."
    step after "Never done"
  }
}
`;

interface Offered {
  readonly rule: string;
  readonly waiving: Waiving;
}

/** Every waiver for every finding of the sheet. */
async function offered(): Promise<readonly Offered[]> {
  const { findings, procedures } = checkSheets(await read({ sheet }));
  return findings.flatMap((finding) =>
    procedures.flatMap(({ procedure }) =>
      waiversFor(finding, procedure).map((waiving) => ({ rule: finding.rule, waiving })),
    ),
  );
}

describe('a waiver', () => {
  test('is offered in the step at fault and in the procedure', async () => {
    const titles = (await offered())
      .filter(({ rule }) => ['hold-without-limit', 'hold-backwards', 'unreachable-step'].includes(rule))
      .map(({ waiving }) => waiving.title);
    expect(titles).toEqual([
      'Waive hold-without-limit in this step',
      'Waive hold-without-limit in the whole procedure',
      'Waive hold-backwards in this step',
      'Waive hold-backwards in the whole procedure',
      'Waive unreachable-step in this step',
      'Waive unreachable-step in the whole procedure',
    ]);
  });

  test('does not count with the reason left empty, which is reported; it counts with one', async () => {
    expect(formatText(sheet).text).toBe(sheet);
    const before = checkSheets(await read({ sheet }));
    for (const { rule, waiving } of await offered()) {
      const { sheet: text = '' } = applied({ sheet }, waiving.edits);
      expect(formatText(text).text, waiving.title).toBe(text);
      const without = checkSheets(await read({ sheet: text }));
      expect(without.waived, waiving.title).toEqual([]);
      expect(without.findings.map((one) => one.rule).filter((one) => one === 'reason-missing')).toHaveLength(1);
      expect(without.findings).toHaveLength(before.findings.length + 1);

      const at = offsetOf(text, waiving.reason.start);
      expect(text.slice(at - 1, at + 1), waiving.title).toBe('""');
      const reasoned = `${text.slice(0, at)}The house answers for it.${text.slice(at)}`;
      const withReason = checkSheets(await read({ sheet: reasoned }));
      expect(withReason.waived.map(({ finding }) => finding.rule)).toContain(rule);
      expect(withReason.findings.length).toBeLessThan(before.findings.length);
    }
  });

  test('is offered for nothing that is wrong with a text, with a declaration or with another waiver', async () => {
    const text = `reading t: 0 °C to 9 °C
limits house { allows t from 5 °C to 2 °C }
procedure p {
  within limits house
  waive never-heard-of because "Never mind."
  waive always-true
  step "x" { read t; do nothing; hold 5 }
}
`;
    const { findings, procedures } = checkSheets(await read({ sheet: text }));
    const rules = ['hold-backwards', 'stale-waiver', 'reason-missing', 'unknown-name', 'unit-missing'];
    expect([...new Set(findings.map(({ rule }) => rule))].sort()).toEqual(rules.sort());
    for (const finding of findings) {
      for (const { procedure } of procedures) expect(waiversFor(finding, procedure)).toEqual([]);
    }
  });
});
