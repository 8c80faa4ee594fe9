import type { Pictured } from '@quarrel/pictures';
import { beforeAll, describe, expect, test } from 'vitest';
import { examplesIn } from '../pictures/examples.js';
import { checklistShow, coverageShow, timelineShow } from './answers.js';
import { openPanel, withBrowser } from './panel.js';
import { themes } from './themes.js';

withBrowser();

let chip: Pictured | undefined;
let draft: Pictured | undefined;

beforeAll(async () => {
  [chip] = await examplesIn('school/stone-chip.quarrel');
  [draft] = await examplesIn('draft/faulty-draft.quarrel');
});

function standard(): Pictured {
  if (chip === undefined) throw new Error('the example has no procedure');
  return chip;
}

describe.each(themes)('in a $name theme', (theme) => {
  test('the timeline', async () => {
    const panel = await openPanel({ view: 'timeline', theme });
    await panel.say(timelineShow(standard(), { 'glass-temperature': 281.15 }));
    await panel.page.getByRole('heading', { name: 'Fill', exact: true }).waitFor();
    await panel.picture(`timeline-${theme.name}`);
    await panel.page.evaluate('window.scrollTo(0, 1500)');
    await panel.picture(`timeline-later-${theme.name}`);
    await panel.say(timelineShow(draft ?? standard(), {}));
    await panel.picture(`timeline-draft-${theme.name}`);
    expect(await panel.barriers()).toEqual([]);
    expect(panel.problems).toEqual([]);
  });

  test('the coverage', async () => {
    const panel = await openPanel({ view: 'coverage', theme });
    for (const by of ['choice', 'time', 'findings'] as const) {
      await panel.say(coverageShow(draft ?? standard(), { by, across: 'break', down: 'glass-temperature', fixed: {} }));
      await panel.page.locator('.grid').waitFor();
      await panel.picture(`coverage-${by}-${theme.name}`);
    }
    await panel.say(coverageShow(standard(), { fixed: {} }));
    await panel.picture(`coverage-${theme.name}`);
    expect(await panel.barriers()).toEqual([]);
    expect(panel.problems).toEqual([]);
  });

  test('the checklist', async () => {
    const panel = await openPanel({ view: 'checklist', theme });
    await panel.say(checklistShow(standard(), ['break is star']));
    await panel.page.getByText('Made for').waitFor();
    await panel.picture(`checklist-${theme.name}`);
    expect(await panel.barriers()).toEqual([]);
    expect(panel.problems).toEqual([]);
  });
});
