import type { Region } from '@quarrel/analysis';
import { type Quantity, type Step, spokenDuration, type Thing } from '@quarrel/model';
import { type Answer, degrees, irradianceAt, type Second, si, timeForDose, whenKnown } from '@quarrel/process';
import { heldAtLeast } from '../../mends/hold.js';
import { actsDuring, amountOf, assumedLines, testsOfLines } from '../../process/assumed.js';
import { caveatsInWords } from '../../process/caveats.js';
import { cureDoseOf, lampOf } from '../../process/datasheet.js';
import { everInHand } from '../../process/in-hand.js';
import { settingsAt } from '../../process/settings.js';
import { isIdle, missingOn, noActs, unusable } from '../../process/silence.js';
import type { ProcessRule, Unrun, Work } from '../../rule.js';
import { isSomewhere } from '../../work.js';

/** How a lamp stands over a break; what no sheet assumes is as the datasheet has it. */
const properties = ['distance', 'output', 'passed'] as const;

/** Lines that the estimate can use, by what they tell. */
const examples = {
  dose: 'cure-dose 1.2 J/cm² at 365 nm',
  irradiance: 'irradiance 25 mW/cm² at 30 mm',
  distance: 'distance 30 mm',
  output: 'output 80 %',
  passed: 'passed 80 %',
};

/** A dose counts only for light like that of the datasheet: within this, in metres. */
const sameLight = 15e-9;

/** A lamp is held over a resin for a shorter time than its dose is estimated to take. */
export const underdosedCure: ProcessRule = {
  name: 'underdosed-cure',
  family: 'process',
  severity: 'error',
  title: 'A lamp gives less than the dose that the resin asks for',
  *turns({ procedure }) {
    for (const property of properties) yield* testsOfLines(assumedLines(procedure, 'curing', property));
  },
  *silences(unrun) {
    if (isIdle(unrun, 'curing')) return;
    yield* noActs(unrun.procedure, 'curing');
    yield* missingOn('resin', unrun, examples.dose, (resin) => cureDoseOf(resin) !== undefined);
    yield* missingOn('lamp', unrun, examples.irradiance, (lamp) => lampOf(lamp) !== undefined);
    for (const { lamp, resin } of pairs(unrun)) {
      if (isSameLight(lamp, resin)) {
        for (const placing of placingsOf(unrun)) {
          yield* unusable(timeToCure({ lamp, resin, placing }), examples, examples.irradiance, lamp.range);
        }
        continue;
      }
      const light = lampOf(lamp)?.wavelength?.text ?? '';
      const message = `"${lamp.name}" shines at ${light}, and the dose of "${resin.name}" is for other light.`;
      yield { message, wakes: `cure-dose DOSE at ${light}`, range: resin.range };
    }
  },
  *run(work) {
    const longest = longestCure(work);
    for (const { step, number } of curingSteps(work)) {
      if ((step.hold?.least?.si ?? 0) >= longest) continue;
      for (const cure of curesAt(number, work)) {
        const { lamp, resin, placing, region } = cure;
        const need = timeToCure(cure);
        const held = Math.max(step.hold?.least?.si ?? 0, work.run.steps[number]?.meanwhile?.least ?? 0);
        if (need?.kind !== 'value' || need.value <= held || !isSomewhere(work, region)) continue;
        const asked = Math.ceil(need.value);
        yield {
          range: step.hold?.range ?? step.range,
          message: `${holdInWords(step)} for "${lamp.name}" to give "${resin.name}" its dose: that takes about ${spokenDuration(asked)}.`,
          because: `An estimate: dose is irradiance times time.${placingWords(placing)}${caveatsInWords(need.caveats)} Resin that got too little stays soft inside.`,
          source: `the datasheets of ${resin.label} and ${lamp.label}; docs/process.md`,
          advice: `Hold the lamp at least ${spokenDuration(asked)}, or nearer where its maker allows that.`,
          related: [
            { message: `the datasheet of "${resin.name}"`, range: resin.range },
            { message: `the datasheet of "${lamp.name}"`, range: lamp.range },
          ],
          mends: () =>
            heldAtLeast(step, {
              dimension: 'time',
              si: asked,
              text: spokenDuration(asked),
              unit: 's',
              range: step.range,
            }),
          step: number,
          where: { region, reached: work.run.steps[number]?.before.reached ?? region, before: number },
        };
      }
    }
  },
};

function curingSteps({ procedure, steps }: Unrun): readonly { readonly step: Step; readonly number: number }[] {
  const acts = actsDuring(procedure, 'curing');
  return steps.flatMap((step, number) =>
    step.unreadHold === undefined && step.effects.some((effect) => effect.kind === 'act' && acts.has(effect.act))
      ? [{ step, number }]
      : [],
  );
}

function pairs(unrun: Unrun): readonly { readonly lamp: Thing; readonly resin: Thing }[] {
  const lamps = everInHand('lamp', unrun).filter((lamp) => lampOf(lamp) !== undefined);
  const resins = everInHand('resin', unrun).filter((resin) => cureDoseOf(resin) !== undefined);
  return lamps.flatMap((lamp) => resins.map((resin) => ({ lamp, resin })));
}

interface Cure {
  readonly lamp: Thing;
  readonly resin: Thing;
  readonly placing: Placing;
  readonly region: Region;
}

/** What the assumptions say of how the lamp stands; in the order of `properties`. */
type Placing = readonly (Quantity | undefined)[];

function curesAt(number: number, work: Work): readonly Cure[] {
  const settings = settingsAt(number, ['lamp', 'resin'], 'curing', properties, work);
  return settings.flatMap(({ region, hands: [lamps = [], resins = []], values: placing }) =>
    lamps.flatMap((lamp) =>
      resins.filter((resin) => isSameLight(lamp, resin)).map((resin) => ({ lamp, resin, placing, region })),
    ),
  );
}

/** A lamp that says nothing of its light is taken at its word. */
function isSameLight(lamp: Thing, resin: Thing): boolean {
  const shines = lampOf(lamp)?.wavelength;
  const asked = cureDoseOf(resin)?.at;
  return shines === undefined || asked === undefined || Math.abs(shines.si - asked.si) <= sameLight;
}

function holdInWords({ hold }: Step): string {
  if (hold === undefined) return 'There is no hold';
  if (hold.least === undefined) return `The hold of at most ${hold.most?.text} can be too short`;
  return `The hold of ${hold.least.text} is too short`;
}

/** The longest that any lamp has to shine on any resin, in seconds: no hold that is as long is too short. */
function longestCure(unrun: Unrun): number {
  const placings = placingsOf(unrun);
  const times = pairs(unrun).flatMap((pair) =>
    placings.flatMap((placing) => {
      const time = isSameLight(pair.lamp, pair.resin) ? timeToCure({ ...pair, placing }) : undefined;
      return time?.kind === 'value' ? [time.value] : [];
    }),
  );
  return Math.max(0, ...times);
}

/** Every way in which a lamp can be assumed to stand. */
function placingsOf({ procedure }: Unrun): readonly Placing[] {
  return properties.reduce<readonly Placing[]>(
    (placings, property) => {
      const lines = assumedLines(procedure, 'curing', property);
      const values = lines.length === 0 ? [undefined] : lines.map(amountOf);
      return placings.flatMap((placing) => values.map((one) => [...placing, one]));
    },
    [[]],
  );
}

/** How long a lamp has to shine; nothing where a datasheet does not tell. */
function timeToCure({
  lamp,
  resin,
  placing: [distance, output, passed],
}: Omit<Cure, 'region'>): Answer<Second> | undefined {
  const shines = lampOf(lamp)?.lamp;
  const asked = cureDoseOf(resin);
  if (shines === undefined || asked === undefined) return undefined;
  const irradiance = irradianceAt(shines, {
    distance: si(distance?.si ?? shines.distance, 'length'),
    angle: degrees(0),
    output: si(output?.si ?? 1, 'ratio'),
    passed: si(passed?.si ?? 1, 'ratio'),
  });
  return whenKnown(irradiance, (known) => timeForDose(asked.dose, known));
}

function placingWords([distance, output, passed]: Placing): string {
  const assumed = [
    ...(distance === undefined ? [] : [`a distance of ${distance.text}`]),
    ...(output === undefined ? [] : [`${output.text} of its light when new`]),
    ...(passed === undefined ? [] : [`${passed.text} of it through the glass`]),
  ];
  return assumed.length === 0 ? '' : ` Assumed: ${assumed.join(', ')}.`;
}
