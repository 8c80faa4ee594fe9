import { readSheets } from '@quarrel/language';
import type { Procedure, Sheet } from '@quarrel/model';

/** How the conditions of a made-up procedure are asked about. */
export type Shape = 'independent' | 'paired';

/**
 * The text of a procedure of about `steps` steps over `conditions` conditions of two values each. Every block of steps asks
 * about one condition (`independent`), or about one of the first half together with its partner of the second half (`paired`:
 * partners are declared far apart), and does acts that need what earlier ones made.
 */
export function madeSheet(steps: number, conditions: number, shape: Shape): string {
  const blocks = Array.from({ length: Math.max(1, Math.ceil((steps - conditions) / 4)) }, (_, block) => {
    const test = testOf(block, conditions, shape);
    return `
    step "Draw ${block}" { do draw; takes ${1 + (block % 7)} s to ${2 + (block % 7)} s }
    when ${test} {
      step "Press ${block}" { do press; takes 2 s to 4 s; hold ${2 + (block % 5)} s to 10 s }
    } otherwise {
      step "Draw again ${block}" { do draw; takes 3 s }
    }
    when not (${test}) {
      step "Press after all ${block}" { do press; takes 4 s }
    }`;
  });
  return sheetAround(conditions, blocks.join('\n'));
}

/**
 * The same with everything that estimates are made from: things with datasheets, resin that is loaded before every twentieth block,
 * and assumptions of which some hold in half of the situations. Most holds are long enough, as in a procedure that is worked by.
 */
export function estimatedSheet(steps: number, conditions: number, shape: Shape): string {
  const plain = madeSheet(steps, conditions, shape)
    .replace(/step "Draw (\d+)"/g, (draw, block) =>
      block % 20 === 0 ? `step "Load ${block}" { do load; with resin-${(block / 20) % 3} }\n    ${draw}` : draw,
    )
    .replace(/do press; takes 4 s/g, 'do press; takes 4 s; hold 6 s')
    .replace(/do press;/g, 'do press; with small; with bench;')
    .replace('procedure made {', 'procedure made {\n  covers { glass-temperature from 5 °C to 30 °C }')
    .replace('stage "Look" {', 'stage "Look" {\n    step "Read the glass" { read glass-temperature }');
  return `reading glass-temperature: -10 °C to 40 °C
act load
${[0, 1, 2].map(resinText).join('')}
lamp bench { irradiance 2500 mW/cm² at 30 mm; wavelength 365 nm }
injector small { pressure 200 kPa; vacuum 85 kPa }
assume glass { temperature glass-temperature }
assume filling { during press; gap 12 µm; length 20 mm; gap 20 µm when c0 is yes; length 10 mm when c1 is yes }
assume curing { during press; distance 40 mm when c2 is yes }
assume opening { during load; irradiance 0.5 mW/cm² }
assume warming { during draw; change 1 K; allowed 40 K }
assume air { temperature 20 °C; humidity 30 %; humidity 40 % when c0 is yes; altitude 500 m }
${plain}`;
}

function resinText(number: number): string {
  const thin = 16 + 4 * number;
  return `resin resin-${number} {
  viscosity ${thin} mPa·s at 20 °C, ${2.5 * thin} mPa·s at 5 °C
  surface-tension 33 mN/m
  cure-dose 1.2 J/cm² at 365 nm
  works from 0 °C to 35 °C
  open-time ${4 + number} min under 1 mW/cm²
}
`;
}

/** One state on which every pair of conditions leaves its mark, so that one diagram has to hold all pairs at once. */
export function entangledSheet(conditions: number): string {
  const marks = Array.from(
    { length: Math.floor(conditions / 2) },
    (_, pair) => `
    when ${testOf(pair, conditions, 'paired')} { step "Draw ${pair}" { do draw } }`,
  );
  return sheetAround(conditions, `${marks.join('')}\n    step "Press" { do press }`);
}

function testOf(block: number, conditions: number, shape: Shape): string {
  const half = Math.floor(conditions / 2);
  return shape === 'paired'
    ? `c${block % half} is yes and c${(block % half) + half} is yes`
    : `c${block % conditions} is yes`;
}

function sheetAround(conditions: number, body: string): string {
  const names = Array.from({ length: conditions }, (_, index) => `c${index}`);
  return `${names.map((name) => `observation ${name}: yes, no`).join('\n')}
state cavity: empty, evacuated, filled
act draw { makes cavity evacuated }
act press { needs cavity is evacuated as press-after-draw because "Pressure alone pushes air along."; makes cavity filled }

procedure made {
  stage "Look" {
${names.map((name) => `    step "See ${name}" { observe ${name} }`).join('\n')}
  }
  stage "Work" {${body}
  }
}
`;
}

/** The sheet of a text, lowered; the text has to be without problems. */
export async function sheetOf(text: string): Promise<Sheet> {
  const uri = 'file:///made/made.quarrel';
  const { sheets } = await readSheets([uri], {
    read: async (one) => (one === uri ? { kind: 'text', text } : { kind: 'missing' }),
  });
  const [sheet] = sheets;
  if (sheet === undefined || sheet.problems.length > 0) throw new Error(JSON.stringify(sheet?.problems.slice(0, 3)));
  return sheet;
}

export async function procedureOf(text: string): Promise<Procedure> {
  const [procedure] = (await sheetOf(text)).procedures;
  if (procedure === undefined) throw new Error('the text holds no procedure');
  return procedure;
}
