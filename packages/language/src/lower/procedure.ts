import type { Choice, ChoiceCase, NamedUse, Procedure, Vocabulary } from '@quarrel/model';
import type { Reference } from 'langium';
import * as ast from '../generated/ast.js';
import { type ProcedurePart, partsOf } from '../names/parts.js';
import { stepsIn } from '../names/visible.js';
import { declared } from './declared.js';
import { lowerFlow } from './flow.js';
import { optional, type Reader, resolved } from './reader.js';
import { slug, stepIds } from './step-ids.js';
import { lowerCaution, lowerWaiver } from './steps.js';
import { lowerTest } from './tests.js';

/** A procedure with everything it can speak of. One whose name is lost gets one from its label, so that its steps are not lost. */
export function lowerProcedure(node: ast.Procedure, vocabulary: Vocabulary, reader: Reader): Procedure {
  const { places } = reader;
  const label = node.label ?? node.$type;
  const own = declared(node, reader) ?? { name: slug(label), label, range: places.ofName(node) };
  const parts = partsOf(node);
  const ids = stepIds(stepsIn(node));
  const [revision, secondRevision] = parts.filter(ast.isRevision);
  if (secondRevision !== undefined) {
    reader.complain('A procedure has one `revision`.', places.ofFirstWord(secondRevision));
  }
  const covers = parts.filter(ast.isCovers);
  const [firstCovers] = covers;
  return {
    kind: 'procedure',
    ...own,
    uri: places.uri,
    ...optional('revision', revision?.text),
    covers: covers.flatMap(({ tests }) => tests.map((test) => lowerTest(test, places.ofNode(test), reader))),
    ...optional('coversRange', firstCovers === undefined ? undefined : places.ofFirstWord(firstCovers)),
    ...optional('coversClosing', firstCovers === undefined ? undefined : places.closing(firstCovers)),
    within: parts
      .filter(ast.isWithin)
      .flatMap(({ limits }) => limits.filter(resolved).map((use) => asWritten(use, reader))),
    cautions: parts.filter(ast.isCaution).flatMap((caution) => lowerCaution(caution, reader) ?? []),
    waivers: parts.filter(ast.isWaive).flatMap((waive) => lowerWaiver(waive, reader) ?? []),
    choices: parts.filter(ast.isChoose).flatMap((choose) => lowerChoice(choose, reader) ?? []),
    body: parts.filter(isFlow).map((part) => lowerFlow(part, ids, reader)),
    vocabulary,
    ...optional('clauses', places.inside(node)),
    ...optional('closing', places.closing(node)),
  };
}

function isFlow(part: ProcedurePart): part is ast.Flow {
  return ast.isFlow(part);
}

function asWritten(reference: Reference<ast.Limits | ast.Thing>, reader: Reader): NamedUse {
  return { name: reference.$refText, range: reader.places.of(reference.$refNode) };
}

function lowerChoice(node: ast.Choose, reader: Reader): Choice | undefined {
  const own = declared(node, reader);
  const [otherwise, second] = node.otherwise;
  if (second !== undefined) reader.complain('A choice has one `otherwise`.', reader.places.ofFirstWord(second));
  if (own === undefined) return undefined;
  return {
    kind: 'choice',
    ...own,
    thingKind: node.kind,
    cases: node.cases.flatMap((one): ChoiceCase[] => {
      const range = reader.places.ofNode(one);
      const test = lowerTest(one.test, range, reader);
      // A thing that nobody knows keeps its case: a case left out would be found once more, as a gap.
      if (one.thing === undefined) return [];
      return [{ test, thing: one.thing.$refText, range, ...optional('cut', reader.places.cut(one)) }];
    }),
    ...optional('otherwise', otherwise?.thing === undefined ? undefined : asWritten(otherwise.thing, reader)),
    ...optional('otherwiseCut', otherwise === undefined ? undefined : reader.places.cut(otherwise)),
  };
}
