import { readFileSync } from 'node:fs';
import { testInWords } from '@quarrel/checks';
import type { Effect, Flow, Procedure, Span, Step } from '@quarrel/model';
import { madeSheet, sheetOf } from './sheets.js';

/** A text in an editor, with places where numbers are written anew, one keystroke after another. */
export interface Edited {
  readonly text: string;
  readonly lines: number;
  readonly sites: Readonly<Record<Site, Place>>;
}

/** What the number belongs to: a comment, words for people, or a time that counts. */
export type Site = 'comment' | 'label' | 'hold';
export const allSites: readonly Site[] = ['comment', 'label', 'hold'];

export interface Place {
  readonly line: number;
  readonly character: number;
}

/** The number that stands at every site to begin with; those that follow have as many digits. */
export const firstNumber = 1000;

/** The words before the number of each site, in our language and in YAML. */
const marks = {
  sheet: { comment: '// Remark ', label: ', line ', hold: 'hold ' },
  yaml: { comment: '# Remark ', label: ', line ', hold: 'hold: ' },
} as const;

/** A sheet of several procedures as they are written for work: the one of the examples, over and over. */
export function shopSheet(lines: number): Edited {
  const text = readFileSync(new URL('../../examples/other-trades/short-crack.quarrel', import.meta.url), 'utf8');
  const at = text.indexOf('procedure short-crack');
  const declarations = text.slice(0, at);
  const procedure = text.slice(at);
  const count = Math.max(1, Math.round((lines - linesOf(declarations)) / linesOf(procedure)));
  const procedures = Array.from({ length: count }, (_, number) => {
    const named = procedure.replace('procedure short-crack', `procedure short-crack-${number}`);
    return number !== Math.floor(count / 2)
      ? named
      : named
          .replace(
            '    step press-end "Press resin into the end" {',
            `    // Remark ${firstNumber}\n    step press-end "Press resin into the end, line ${firstNumber}" {`,
          )
          .replace(
            '      with runny\n      hold 1 min to 2 min',
            `      with runny\n      hold ${firstNumber} s to 9999 s`,
          );
  });
  return edited(`${declarations}${procedures.join('\n')}`, 'sheet');
}

/** The worst that an author can do: everything in one procedure. */
export function singleProcedure(lines: number): Edited {
  const plain = madeSheet(Math.round(lines * 0.48), 8, 'independent');
  const block = Math.floor((lines * 0.48) / 8);
  const text = plain.replace(
    new RegExp(`( *)step "Draw ${block}" \\{ do draw;`),
    `$1// Remark ${firstNumber}\n$1step "Draw ${block}, line ${firstNumber}" { do draw; hold ${firstNumber} s to 9999 s;`,
  );
  return edited(text, 'sheet');
}

/** The same procedures as YAML, and a schema for them that knows what the language knows without their meaning. */
export async function asYaml(sheet: Edited): Promise<{ readonly yaml: Edited; readonly schema: object }> {
  const { procedures } = await sheetOf(sheet.text);
  const text = yamlOf({ procedures: procedures.map(plain) })
    .join('\n')
    .replace(/^( *)(- step: .*\n *text: .*, line )/m, `$1# Remark ${firstNumber}\n$1$2`);
  return { yaml: edited(`${text}\n`, 'yaml'), schema: schemaFor(procedures) };
}

function edited(text: string, language: keyof typeof marks): Edited {
  const place = (site: Site): Place => {
    const mark = `${marks[language][site]}${firstNumber}`;
    const at = text.indexOf(mark);
    if (at < 0 || text.indexOf(mark, at + 1) >= 0) throw new Error(`"${mark}" does not stand there once`);
    const before = text.slice(0, at + mark.length - String(firstNumber).length).split('\n');
    return { line: before.length - 1, character: before.at(-1)?.length ?? 0 };
  };
  return {
    text,
    lines: linesOf(text),
    sites: { comment: place('comment'), label: place('label'), hold: place('hold') },
  };
}

function linesOf(text: string): number {
  return text.split('\n').length - 1;
}

type Plain = string | number | readonly Plain[] | { readonly [key: string]: Plain };

function plain({ name, label, covers, choices, body }: Procedure): Plain {
  return {
    procedure: name,
    label,
    ...(covers.length === 0 ? {} : { covers: covers.map(testInWords) }),
    ...(choices.length === 0 ? {} : { choices: choices.map((choice) => choice.name) }),
    body: body.map(plainFlow),
  };
}

function plainFlow(flow: Flow): Plain {
  switch (flow.kind) {
    case 'stage':
      return { stage: flow.label, body: flow.body.map(plainFlow) };
    case 'step':
      return plainStep(flow);
    case 'when':
      return {
        cases: flow.cases.map(({ test, body }) => ({ when: testInWords(test), body: body.map(plainFlow) })),
        ...(flow.otherwise === undefined ? {} : { otherwise: flow.otherwise.map(plainFlow) }),
      };
    case 'repeat':
      return { repeat: flow.atMost ?? 1, until: flow.until ?? '', body: flow.body.map(plainFlow) };
    case 'stop':
      return { stop: flow.reason };
  }
}

function plainStep({ id, text, effects, takes, hold, cautions, notes }: Step): Plain {
  const of = <Kind extends Effect['kind']>(kind: Kind) =>
    effects.filter((effect): effect is Extract<Effect, { kind: Kind }> => effect.kind === kind);
  const lists: Record<string, readonly Plain[]> = {
    do: of('act').map(({ act }) => act),
    observe: of('observe').map(({ condition }) => condition),
    read: of('read').map(({ condition }) => condition),
    with: of('with').map(({ thing }) => thing),
    check: of('check').map((check) => check.text),
    cautions: cautions.map((caution) => (caution.kind === 'text' ? caution.text : caution.hazard)),
    notes,
    meanwhile: of('meanwhile').flatMap(({ body }) => body.map(plainFlow)),
  };
  return {
    step: id,
    text,
    ...(takes === undefined ? {} : { takes: spanText(takes) }),
    ...(hold === undefined ? {} : { hold: spanText(hold) }),
    ...Object.fromEntries(Object.entries(lists).filter(([, list]) => list.length > 0)),
  };
}

function spanText({ least, most }: Span): string {
  return [least, most].flatMap((end) => (end === undefined ? [] : [`${end.si} s`])).join(' to ');
}

function yamlOf(value: Plain): readonly string[] {
  if (isList(value)) {
    return value.flatMap((one) => {
      const [first = '', ...rest] = yamlOf(one);
      return [`- ${first}`, ...rest.map((line) => `  ${line}`)];
    });
  }
  if (typeof value !== 'object') return [scalar(value)];
  return Object.entries(value).flatMap(([key, one]) =>
    typeof one === 'object' ? [`${key}:`, ...yamlOf(one).map((line) => `  ${line}`)] : [`${key}: ${scalar(one)}`],
  );
}

function isList(value: Plain): value is readonly Plain[] {
  return Array.isArray(value);
}

function scalar(value: string | number): string {
  return typeof value === 'number' || /^[\w][\w ,-]*$/.test(value) ? String(value) : JSON.stringify(value);
}

function schemaFor(procedures: readonly Procedure[]): object {
  const [{ vocabulary } = { vocabulary: undefined }] = procedures;
  const oneOf = (names: readonly { readonly name: string }[] = []) => ({
    type: 'array',
    items: { enum: names.map(({ name }) => name) },
  });
  const text = { type: 'string', minLength: 1 };
  const texts = { type: 'array', items: text };
  const time = { type: 'string', pattern: '^\\d+(\\.\\d+)? s( to \\d+(\\.\\d+)? s)?$' };
  const body = { type: 'array', items: { $ref: '#/definitions/flow' } };
  const closed = (required: readonly string[], properties: object) => ({
    type: 'object',
    required,
    properties,
    additionalProperties: false,
  });
  const step = closed(['step', 'text'], {
    step: { type: 'string', pattern: '^[a-z][a-z0-9-]*$' },
    text,
    takes: time,
    hold: time,
    do: oneOf(vocabulary?.acts),
    observe: oneOf(vocabulary?.observations),
    read: oneOf(vocabulary?.readings),
    with: oneOf([...(vocabulary?.things ?? []), ...procedures.flatMap(({ choices }) => choices)]),
    check: texts,
    cautions: texts,
    notes: texts,
    meanwhile: body,
  });
  return {
    $schema: 'http://json-schema.org/draft-07/schema#',
    definitions: {
      flow: {
        anyOf: [
          step,
          closed(['stage', 'body'], { stage: text, body }),
          closed(['cases'], {
            cases: { type: 'array', items: closed(['when', 'body'], { when: text, body }) },
            otherwise: body,
          }),
          closed(['repeat', 'body'], { repeat: { type: 'number', minimum: 1 }, until: text, body }),
          closed(['stop'], { stop: text }),
        ],
      },
    },
    ...closed(['procedures'], {
      procedures: {
        type: 'array',
        items: closed(['procedure', 'label', 'body'], {
          procedure: text,
          label: text,
          covers: texts,
          choices: texts,
          body,
        }),
      },
    }),
  };
}
