import type { Doubt } from '@quarrel/pictures';

/** The texts of holds against the temperature that do not come from the sheet. */
export interface HoldsWords {
  readonly estimate: string;
  readonly shown: string;
  readonly everyStep: string;
  readonly chart: (reading: string, needs: number, holds: number) => string;
  readonly time: string;
  readonly needs: string;
  readonly line: string;
  readonly resin: string;
  readonly always: string;
  readonly legOf: (length: string, gap: string) => string;
  readonly noEstimate: string;
  readonly doubts: Readonly<Record<Doubt, string>>;
  readonly doubtful: string;
  readonly holds: string;
  readonly noHold: string;
  readonly turns: string;
  readonly noTurns: string;
  readonly below: (temperature: string, isExact: boolean) => string;
  readonly everywhere: string;
  readonly short: (hold: string, resin: string, leg: string) => string;
  readonly outlasted: string;
  readonly longest: string;
  readonly assumptions: string;
  readonly properties: Readonly<Record<string, string>>;
  readonly when: (circumstance: string) => string;
  readonly missing: string;
  readonly wakes: string;
}

export const englishHolds: HoldsWords = {
  estimate:
    'An estimate from datasheets and assumptions, never an instruction. The gap counts squared, and nobody knows it.',
  shown: 'Steps',
  everyStep: 'every step that presses resin in',
  chart: (reading, needs, holds) =>
    `Time against ${reading}, on a logarithmic scale: ${needs === 1 ? '1 line' : `${needs} lines`} of what resin needs, ${holds === 1 ? '1 hold as a band' : `${holds} holds as bands`}. The tables below say the same.`,
  time: 'Time',
  needs: 'What the resin is estimated to need',
  line: 'Line',
  resin: 'Resin, with leg and gap as assumed',
  always: 'wherever resin is pressed in',
  legOf: (length, gap) => `leg ${length}, gap ${gap}`,
  noEstimate: 'no estimate',
  doubts: {
    'single-point': 'One viscosity on the datasheet: nothing tells how it changes with temperature.',
    'single-point-colder': 'Colder than the one viscosity on the datasheet it needs longer than this.',
    'single-point-warmer': 'Warmer than the one viscosity on the datasheet it needs less than this.',
    'colder-than-data': 'In part colder than the datasheet goes, where it can well take longer.',
    'warmer-than-data': 'In part warmer than the datasheet goes.',
    'fits-loosely': 'The curve misses a viscosity on the datasheet by more than 5 %.',
  },
  doubtful: 'thin line: to be trusted less, mostly beyond the datasheet',
  holds: 'Holds',
  noHold: 'no hold',
  turns: 'Where a hold turns too short',
  noTurns: 'No hold is shorter than the estimate, as far as the datasheets tell.',
  below: (temperature, isExact) =>
    isExact ? `Below ${temperature}` : `Below ${temperature}, as far as the datasheet tells`,
  everywhere: 'At every temperature',
  short: (hold, resin, leg) => `${hold} is shorter than ${resin} needs (${leg})`,
  outlasted: 'A longer press of the job makes up for it.',
  longest: 'No longer press of the job makes up for all of it.',
  assumptions: 'What is taken for granted',
  properties: { gap: 'Gap', length: 'Length of the leg', pressure: 'Pressure' },
  when: (circumstance) => `when ${circumstance}`,
  missing: 'Nothing can be estimated of',
  wakes: 'This line would tell:',
};

export const spanishHolds: HoldsWords = {
  estimate:
    'Una estimación a partir de fichas técnicas y supuestos, nunca una instrucción. La abertura cuenta al cuadrado y nadie la conoce.',
  shown: 'Pasos',
  everyStep: 'todo paso que mete resina a presión',
  chart: (reading, needs, holds) =>
    `Tiempo según ${reading}, en escala logarítmica: ${needs === 1 ? '1 línea' : `${needs} líneas`} de lo que necesita la resina, ${holds === 1 ? '1 espera como banda' : `${holds} esperas como bandas`}. Las tablas de abajo dicen lo mismo.`,
  time: 'Tiempo',
  needs: 'Lo que se estima que necesita la resina',
  line: 'Línea',
  resin: 'Resina, con rama y abertura supuestas',
  always: 'siempre que se mete resina',
  legOf: (length, gap) => `rama ${length}, abertura ${gap}`,
  noEstimate: 'sin estimación',
  doubts: {
    'single-point': 'Una sola viscosidad en la ficha: nada dice cómo cambia con la temperatura.',
    'single-point-colder': 'Con más frío que en la única viscosidad de la ficha necesita más que esto.',
    'single-point-warmer': 'Con más calor que en la única viscosidad de la ficha necesita menos que esto.',
    'colder-than-data': 'En parte más frío de lo que llega la ficha; bien puede tardar más.',
    'warmer-than-data': 'En parte más caliente de lo que llega la ficha.',
    'fits-loosely': 'La curva se aparta de una viscosidad de la ficha más de un 5 %.',
  },
  doubtful: 'línea fina: menos de fiar, casi siempre más allá de la ficha',
  holds: 'Esperas',
  noHold: 'sin espera',
  turns: 'Dónde una espera se queda corta',
  noTurns: 'Ninguna espera es más corta que lo estimado, hasta donde llegan las fichas.',
  below: (temperature, isExact) =>
    isExact ? `Por debajo de ${temperature}` : `Por debajo de ${temperature}, hasta donde llega la ficha`,
  everywhere: 'A toda temperatura',
  short: (hold, resin, leg) => `${hold} es menos de lo que necesita ${resin} (${leg})`,
  outlasted: 'Una presión más larga del trabajo lo compensa.',
  longest: 'Ninguna presión más larga del trabajo lo compensa del todo.',
  assumptions: 'Lo que se da por supuesto',
  properties: { gap: 'Abertura', length: 'Longitud de la rama', pressure: 'Presión' },
  when: (circumstance) => `si ${circumstance}`,
  missing: 'Nada se puede estimar de',
  wakes: 'Esta línea lo diría:',
};
