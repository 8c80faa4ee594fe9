import type { Aspect } from '@quarrel/pictures';
import { englishHolds, type HoldsWords, spanishHolds } from './holds-words.js';

type Severity = 'error' | 'warning' | 'info';

/** Every text of the panels that does not come from the sheet. */
export interface Words {
  readonly situation: string;
  readonly moreConditions: string;
  readonly changesAt: string;
  readonly notCovered: string;
  readonly declined: (condition: string, picked: string, taken: string | undefined) => string;
  readonly toChecklist: string;
  readonly whole: (total: string) => string;
  readonly neverEnds: string;
  readonly findings: string;
  readonly severity: Readonly<Record<Severity, string>>;
  readonly step: string;
  readonly startsAt: string;
  readonly takes: (time: string) => string;
  readonly hold: (time: string) => string;
  readonly mayStop: string;
  readonly nothingChosen: string;
  readonly meanwhile: string;
  readonly passes: (atMost: number | undefined, until: string | undefined) => string;
  readonly allPasses: (time: string) => string;
  readonly open: string;
  readonly way: (circumstance: string | undefined) => string;
  readonly nothingToDo: string;
  readonly workStops: (reason: string) => string;
  readonly stops: string;
  readonly legend: string;
  readonly handsOn: string;
  readonly holdLeast: string;
  readonly holdMost: string;
  readonly later: string;
  readonly starts: (time: string) => string;
  readonly between: (least: string, most: string) => string;
  readonly from: (least: string) => string;
  readonly exactly: (time: string) => string;
  readonly range: (least: string, most: string) => string;
  readonly atLeast: (least: string) => string;
  readonly across: string;
  readonly down: string;
  readonly by: string;
  readonly aspects: Readonly<Record<Aspect, string>>;
  readonly choice: string;
  readonly otherConditions: string;
  readonly any: string;
  readonly or: string;
  readonly notTaken: string;
  readonly countOfFindings: (count: number) => string;
  readonly worst: Readonly<Record<Severity, string>>;
  readonly noFindings: string;
  readonly grid: string;
  readonly otherValues: (count: number) => string;
  readonly everywhere: string;
  readonly below: (high: string, included: boolean) => string;
  readonly above: (low: string, included: boolean) => string;
  readonly stretch: (low: string, lowIncluded: boolean, high: string, highIncluded: boolean) => string;
  readonly shortest: string;
  readonly longest: string;
  readonly ofHolds: HoldsWords;
  readonly checklistFor: string;
  readonly everyJob: string;
  readonly showEveryJob: string;
  readonly draft: string;
  readonly stale: (reason: string) => string;
  readonly waiting: string;
}

const english: Words = {
  situation: 'Situation',
  moreConditions: 'Conditions that decide nothing here',
  changesAt: 'Changes at',
  notCovered: 'not covered',
  declined: (condition, picked, taken) =>
    taken === undefined
      ? `${condition}: ${picked} is outside of what is covered here, so it was left open.`
      : `${condition}: ${picked} is outside of what is covered here. The picture shows ${taken}.`,
  toChecklist: 'Show the checklist for this situation',
  whole: (total) => `Start to end: ${total}`,
  neverEnds: 'The work always stops before its end.',
  findings: 'Findings',
  severity: { error: 'Error', warning: 'Warning', info: 'Note' },
  step: 'Step',
  startsAt: 'Starts at',
  takes: (time) => `hands-on ${time}`,
  hold: (time) => `hold ${time}`,
  mayStop: 'can stop here',
  nothingChosen: 'nothing chosen',
  meanwhile: 'Meanwhile',
  passes: (atMost, until) => {
    const times = atMost === undefined ? 'As often as it takes' : atMost === 1 ? 'Once' : `At most ${atMost} times`;
    return until === undefined ? times : `${times}, until: ${until}`;
  },
  allPasses: (time) => `all passes ${time}`,
  open: 'One of these, as it turns out on the way',
  way: (circumstance) =>
    circumstance === undefined ? 'If the test that could not be read holds' : `If ${circumstance}`,
  nothingToDo: 'Nothing to do.',
  workStops: (reason) => `The work stops: ${reason}`,
  stops: 'Where the work can stop',
  legend: 'Legend',
  handsOn: 'hands-on',
  holdLeast: 'hold, at least',
  holdMost: 'hold, at most',
  later: 'can be as late as this',
  starts: (time) => `starts ${time}`,
  between: (least, most) => `between ${least} and ${most}`,
  from: (least) => `from ${least} on`,
  exactly: (time) => `at ${time}`,
  range: (least, most) => `${least} to ${most}`,
  atLeast: (least) => `at least ${least}`,
  across: 'Across',
  down: 'Down',
  by: 'Show',
  aspects: { choice: 'what is chosen', time: 'total time', findings: 'findings' },
  choice: 'Choice',
  otherConditions: 'Other conditions',
  any: 'any',
  or: 'or',
  notTaken: 'not taken',
  countOfFindings: (count) => (count === 1 ? '1 finding' : `${count} findings`),
  worst: { error: 'errors among them', warning: 'the worst are warnings', info: 'notes only' },
  noFindings: 'no findings',
  grid: 'Coverage',
  otherValues: (count) => `${count} other values`,
  everywhere: 'Every situation covered',
  below: (high, included) => (included ? `up to ${high}` : `below ${high}`),
  above: (low, included) => (included ? `${low} and above` : `above ${low}`),
  stretch: (low, lowIncluded, high, highIncluded) =>
    `${lowIncluded ? '' : 'above '}${low} to ${highIncluded ? '' : 'below '}${high}`,
  shortest: 'shorter',
  longest: 'longer',
  ofHolds: englishHolds,
  checklistFor: 'Made for',
  everyJob: 'every job the procedure covers',
  showEveryJob: 'Show it for every job covered',
  draft: 'Draft: the procedure has errors. Nobody should work from this.',
  stale: (reason) => `This is of the last version that could be shown. ${reason}`,
  waiting: 'Waiting for the procedure…',
};

const spanish: Words = {
  situation: 'Situación',
  moreConditions: 'Condiciones que aquí no deciden nada',
  changesAt: 'Cambia en',
  notCovered: 'no cubierto',
  declined: (condition, picked, taken) =>
    taken === undefined
      ? `${condition}: ${picked} queda fuera de lo que aquí se cubre; se dejó abierto.`
      : `${condition}: ${picked} queda fuera de lo que aquí se cubre. La imagen muestra ${taken}.`,
  toChecklist: 'Mostrar la lista de control de esta situación',
  whole: (total) => `De principio a fin: ${total}`,
  neverEnds: 'El trabajo siempre se detiene antes del final.',
  findings: 'Hallazgos',
  severity: { error: 'Error', warning: 'Advertencia', info: 'Nota' },
  step: 'Paso',
  startsAt: 'Empieza',
  takes: (time) => `manos a la obra ${time}`,
  hold: (time) => `espera ${time}`,
  mayStop: 'puede detenerse aquí',
  nothingChosen: 'nada elegido',
  meanwhile: 'Mientras tanto',
  passes: (atMost, until) => {
    const times =
      atMost === undefined ? 'Cuantas veces haga falta' : atMost === 1 ? 'Una vez' : `Como máximo ${atMost} veces`;
    return until === undefined ? times : `${times}, hasta: ${until}`;
  },
  allPasses: (time) => `todas las pasadas ${time}`,
  open: 'Una de estas, según resulte por el camino',
  way: (circumstance) =>
    circumstance === undefined ? 'Si se cumple la prueba que no se pudo leer' : `Si ${circumstance}`,
  nothingToDo: 'Nada que hacer.',
  workStops: (reason) => `El trabajo se detiene: ${reason}`,
  stops: 'Dónde puede detenerse el trabajo',
  legend: 'Leyenda',
  handsOn: 'manos a la obra',
  holdLeast: 'espera, al menos',
  holdMost: 'espera, como máximo',
  later: 'puede llegar hasta aquí',
  starts: (time) => `empieza ${time}`,
  between: (least, most) => `entre ${least} y ${most}`,
  from: (least) => `a partir de ${least}`,
  exactly: (time) => `a los ${time}`,
  range: (least, most) => `${least} a ${most}`,
  atLeast: (least) => `al menos ${least}`,
  across: 'A lo ancho',
  down: 'Hacia abajo',
  by: 'Mostrar',
  aspects: { choice: 'lo que se elige', time: 'tiempo total', findings: 'hallazgos' },
  choice: 'Elección',
  otherConditions: 'Otras condiciones',
  any: 'cualquiera',
  or: 'o',
  notTaken: 'no se usa',
  countOfFindings: (count) => (count === 1 ? '1 hallazgo' : `${count} hallazgos`),
  worst: { error: 'con errores', warning: 'lo peor son advertencias', info: 'solo notas' },
  noFindings: 'sin hallazgos',
  grid: 'Cobertura',
  otherValues: (count) => `${count} otros valores`,
  everywhere: 'Toda situación cubierta',
  below: (high, included) => (included ? `hasta ${high}` : `menos de ${high}`),
  above: (low, included) => (included ? `desde ${low}` : `más de ${low}`),
  stretch: (low, lowIncluded, high, highIncluded) =>
    `${lowIncluded ? '' : 'más de '}${low} a ${highIncluded ? '' : 'menos de '}${high}`,
  shortest: 'más corto',
  longest: 'más largo',
  ofHolds: spanishHolds,
  checklistFor: 'Hecha para',
  everyJob: 'todo trabajo que cubre el procedimiento',
  showEveryJob: 'Mostrarla para todo trabajo cubierto',
  draft: 'Borrador: el procedimiento tiene errores. Nadie debe trabajar con esto.',
  stale: (reason) => `Esto es de la última versión que se pudo mostrar. ${reason}`,
  waiting: 'Esperando el procedimiento…',
};

/** The words for a language tag such as `es-MX`; English where there are none of it. */
export function wordsFor(language: string): Words {
  return /^es\b/i.test(language) ? spanish : english;
}
