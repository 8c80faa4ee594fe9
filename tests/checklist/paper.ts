import {
  act,
  between,
  cautionOf,
  cautionText,
  choice,
  effect,
  hazard,
  is,
  observation,
  procedure,
  reading,
  repeat,
  span,
  stage,
  step,
  thing,
  when,
} from '../build.js';

/**
 * A small procedure whose times are worked out on paper. Starts and ends in seconds, least to most, over all jobs
 * (bullseye and star); where they differ, also for a star alone and for a bullseye alone:
 *
 * | step        | takes | hold   | starts                                    | ends                                        |
 * |-------------|-------|--------|-------------------------------------------|---------------------------------------------|
 * | look        | 30–60 | –      | 0                                         | 30–60                                       |
 * | measure     | 10    | –      | 30–60                                     | 40–70; below 5 °C it stops here: 40–70      |
 * | flex (star) | 20–40 | –      | 40–70                                     | 60–110                                      |
 * | draw        | 5     | 60–120 | all 40–110, star 60–110, bullseye 40–70   | all 105–235, star 125–235, bullseye 105–195 |
 * | massage     | 10–20 | –      | in the hold, star only: 65–115            | within the hold: 75–135                     |
 * | press ×1–3  | –     | 60–120 | all 105–475 (the third pass begins at most two passes late: 235 + 240), star 125–475, bullseye 105–435 |
 * |             |       |        | behind it: all 165–595 (105 + 60, 235 + 360), star 185–595, bullseye 165–555 |
 * |             |       |        | stopped after three passes: all 285–595 (105 + 180, 235 + 360)      |
 * | cure        | –     | 60     | all 165–595, star 185–595, bullseye 165–555 | all 225–655, star 245–655, bullseye 225–615 |
 *
 * In the kit: 4 to 6 drops in 1 to 3 passes are 4 to 18; a star takes two towels, a bullseye one.
 */
export const paper = procedure(
  'paper-chip',
  'Chip repair, on paper',
  [
    stage(
      'Assess',
      step('look', 'Name the break with a light behind it', {
        takes: span(30, 60, 's'),
        effects: [effect.observe('break'), effect.take('probe')],
        photos: ['the break from outside'],
      }),
      step('measure', 'Read the glass temperature beside the break', {
        takes: span(10, 10, 's'),
        effects: [effect.read('glass-temperature', span(5, 35, '°C'), 'Warm the glass slowly, then start again.')],
      }),
    ),
    stage(
      'Fill',
      when([
        [
          is('break', 'star'),
          [
            step('flex', 'Flex the legs outward from the impact point', {
              takes: span(20, 40, 's'),
              effects: [effect.act('flex'), effect.take('towel', span(1, 1, 'pieces'))],
              cautions: [cautionText('The legs can run: press lightly.')],
            }),
          ],
        ],
      ]),
      step('draw', 'Draw vacuum', {
        takes: span(5, 5, 's'),
        hold: span(1, 2, 'min'),
        effects: [
          effect.act('draw-vacuum'),
          effect.meanwhile(
            when([
              [is('break', 'star'), [step('massage', 'Massage each leg from inside', { takes: span(10, 20, 's') })]],
            ]),
          ),
        ],
      }),
      repeat(
        [
          step('press', 'Press resin in', {
            hold: span(1, 2, 'min'),
            effects: [effect.act('press-resin'), effect.choose('fill', span(4, 6, 'drops'))],
            notes: ['The fill goes on as long as the resin moves.'],
          }),
        ],
        { atMost: 3, until: 'Every leg shows from one side only', orElseStop: 'Legs stay open: refer the glass.' },
      ),
    ),
    stage(
      'Cure',
      step('cure', 'Cure with the injector still on', {
        hold: span(60, 60, 's'),
        effects: [
          effect.act('cure'),
          effect.take('bench'),
          effect.take('towel', span(1, 1, 'pieces')),
          effect.check('The resin does not move any more', 'The lamp is too weak: have it measured.'),
        ],
        cautions: [cautionOf('uv')],
      }),
    ),
  ],
  {
    revision: '3',
    documentation: 'From first look to cured resin.\n\nMade up for a test; nobody should repair a glass with it.',
    covers: [is('break', 'bullseye', 'star'), between('glass-temperature', 0, 35, '°C')],
    cautions: [cautionOf('splinters')],
    choices: [choice('resin', 'fill', [[is('break', 'star'), 'thin']], 'medium')],
    vocabulary: {
      observations: [observation('break', 'Break type', { bullseye: 'Bullseye', star: 'Star', crack: 'Long crack' })],
      readings: [reading('glass-temperature', 'Glass temperature', -20, 60, '°C')],
      hazards: [
        hazard(
          'uv',
          'UV light can hurt eyes and skin',
          'warning',
          [
            { kind: 'do', text: 'Keep other people away from the lamp.' },
            { kind: 'wear', text: 'glasses that block UV' },
          ],
          'common practice',
        ),
        hazard('resin-on-skin', 'Uncured resin irritates the skin', 'caution', [
          { kind: 'wear', text: 'nitrile gloves' },
        ]),
        hazard('splinters', 'Glass splinters', 'danger', [{ kind: 'wear', text: 'safety glasses' }]),
        hazard('lamp-life', 'The lamp ages faster when it is switched off hot', 'notice', []),
      ],
      acts: [
        act('flex', 'Flex the glass'),
        act('draw-vacuum', 'Draw vacuum'),
        act('press-resin', 'Press resin', { raises: ['resin-on-skin'] }),
        act('cure', 'Cure the resin', { raises: ['lamp-life', 'uv'] }),
      ],
      things: [
        thing('tool', 'probe', 'Fixed probe'),
        thing('resin', 'thin', 'Thin clear resin'),
        thing('resin', 'medium', 'Medium resin'),
        thing('lamp', 'bench', 'Bench lamp'),
        thing('consumable', 'towel', 'Lint-free towel'),
      ],
    },
  },
);
