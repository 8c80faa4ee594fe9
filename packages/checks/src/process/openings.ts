import type { ResponseQuestion } from '@quarrel/analysis';
import type { Quantity, Thing } from '@quarrel/model';
import { type Answer, openTimeUnder, type Second, si } from '@quarrel/process';
import type { Unrun } from '../rule.js';
import { actsDuring, amountOf, assumedLines } from './assumed.js';
import { openTimeOf } from './datasheet.js';
import { everInHand } from './in-hand.js';

/** A resin that is opened under a light and pressed in later, and the time it has. */
export interface Opened {
  readonly resin: Thing;
  readonly light: Quantity;
  readonly seconds: number;
  readonly asked: ResponseQuestion;
}

/** Everything that can stand open, by resin, light and the acts that open and press. */
export function openingsOf(unrun: Unrun): readonly Opened[] {
  const { procedure } = unrun;
  const lights = assumedLines(procedure, 'opening', 'irradiance');
  const opens = [...actsDuring(procedure, 'opening')];
  const presses = [...actsDuring(procedure, 'filling')];
  return everInHand('resin', unrun).flatMap((resin) =>
    lights.flatMap((line) => {
      const light = amountOf(line);
      const seconds = light === undefined ? undefined : secondsOpen(resin, light);
      if (light === undefined || seconds === undefined) return [];
      return opens.flatMap((trigger) =>
        presses.map((response) => ({
          resin,
          light,
          seconds,
          asked: { trigger, response, within: seconds, ...(line.when === undefined ? {} : { when: line.when }) },
        })),
      );
    }),
  );
}

function secondsOpen(resin: Thing, light: Quantity): number | undefined {
  const time = openUnder(resin, light);
  return time?.kind === 'value' ? time.value : undefined;
}

/** How long a resin may stand open under a light; nothing where its datasheet does not say for any. */
export function openUnder(resin: Thing, light: Quantity | undefined): Answer<Second> | undefined {
  const open = openTimeOf(resin);
  return open === undefined || light === undefined ? undefined : openTimeUnder(open, si(light.si, 'irradiance'));
}
