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
