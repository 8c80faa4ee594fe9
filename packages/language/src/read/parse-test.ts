import type { Condition, Problem, Test, Vocabulary } from '@quarrel/model';
import { nearest } from '@quarrel/model';
import { AstUtils, URI } from 'langium';
import * as ast from '../generated/ast.js';
import { Places } from '../lower/places.js';
import type { Reader } from '../lower/reader.js';
import { syntaxProblems } from '../lower/syntax-problems.js';
import { lowerTest } from '../lower/tests.js';
import { sharedServices } from './read-sheets.js';

const lead = 'suppose ';
/** The place of what lacks at the very beginning; the author wrote no `suppose`. */
const behindLead = 'behind `suppose`';

/**
 * Reads one test on conditions, as `--for` takes it and as a finding prints its region. Names are looked up in `vocabulary`;
 * ranges count in `text`, at the address `quarrel:/test`.
 */
export function parseTest(
  text: string,
  vocabulary: Vocabulary,
): { readonly test: Test; readonly problems: readonly Problem[] } {
  const { shared } = sharedServices();
  const uri = URI.parse('quarrel:/test.quarrel');
  // A rule that rewrites its own beginning, as `Test` does, cannot be the first one: Langium ties its tree into a knot.
  const document = shared.workspace.LangiumDocumentFactory.fromString<ast.Suppose>(`${lead}${text}`, uri, {
    rule: 'Suppose',
  });
  const places = new Places(uri.toString(), lead.length);
  const conditions = new Map<string, Condition>(
    [...vocabulary.observations, ...vocabulary.readings].map((condition) => [condition.name, condition]),
  );
  const problems: Problem[] = syntaxProblems(document, places).map((problem) =>
    problem.rule === 'syntax' ? { ...problem, message: problem.message.replace(behindLead, 'here') } : problem,
  );
  const reader: Reader = {
    places,
    report: (problem) => problems.push(problem),
    complain: (message, range) => problems.push({ rule: 'syntax', message, range }),
    subjectOf: ({ subject }) => conditions.get(subject?.$refText ?? ''),
    dimensionOf: () => undefined,
    isBroken: () => problems.length > 0,
    subjectsOfKind: (kind) => [...conditions.values()].flatMap((one) => (one.kind === kind ? [one.name] : [])),
  };
  const root = document.parseResult.value;
  problems.push(...unknownIn(root, conditions, places));
  const whole = places.of(root.test?.$cstNode);
  const test = lowerTest(root.test, whole, reader);
  return { test: problems.some(({ rule }) => rule === 'syntax') ? { kind: 'unknown', range: whole } : test, problems };
}

function* unknownIn(root: ast.Suppose, conditions: ReadonlyMap<string, Condition>, places: Places): Generator<Problem> {
  for (const node of AstUtils.streamAst(root)) {
    if (!ast.isComparison(node) || node.subject === undefined) continue;
    const { $refText: name, $refNode } = node.subject;
    const condition = conditions.get(name);
    if (condition === undefined) {
      const candidates = nearest(name, conditions.keys());
      yield { rule: 'unknown-name', sought: 'observation or reading', name, candidates, range: places.of($refNode) };
    } else if (condition.kind === 'observation') {
      const values = condition.values.map((value) => value.name);
      for (const value of node.values) {
        if (values.includes(value.$refText)) continue;
        const candidates = nearest(value.$refText, values);
        const range = places.of(value.$refNode);
        yield { rule: 'unknown-name', sought: `value of ${name}`, name: value.$refText, candidates, range };
      }
    }
  }
}
