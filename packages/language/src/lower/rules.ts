import type { Pattern, Rule } from '@quarrel/model';
import * as ast from '../generated/ast.js';
import { because } from './acts.js';
import { declared } from './declared.js';
import { aTime, lowerQuantity } from './quantities.js';
import { optional, type Reader, resolved } from './reader.js';
import { lowerTest } from './tests.js';

/** A rule; nothing where what it asks cannot be told. */
export function lowerRule(node: ast.Rule, reader: Reader): Rule | undefined {
  const own = declared(node, reader);
  const [asked, second] = node.patterns;
  if (second !== undefined && !reader.isBroken(node))
    reader.complain('A rule asks for one thing; write a second rule.', reader.places.ofNode(second));
  if (own === undefined) return undefined;
  if (asked === undefined) {
    // A broken pattern has been reported where it broke; here there is none at all.
    if (!reader.isBroken(node)) {
      const forms =
        '`A comes before B`, `after A, B follows`, `no A after B`, `at the end …` or `hold of A at least …`';
      reader.complain(`The rule "${own.name}" does not say what it asks: ${forms}.`, own.range);
    }
    return undefined;
  }
  const pattern = lowerPattern(asked, reader);
  if (pattern === undefined) return undefined;
  const [severity = 'error'] = node.severity;
  const place = reader.places.ofNode(asked);
  return {
    kind: 'rule',
    ...own,
    severity,
    pattern,
    ...optional('when', asked.when === undefined ? undefined : lowerTest(asked.when, place, reader)),
    ...because(node),
  };
}

function lowerPattern(node: ast.Pattern, reader: Reader): Pattern | undefined {
  if (ast.isPrecedence(node)) {
    const first = resolved(node.first);
    const later = resolved(node.later);
    return first === undefined || later === undefined ? undefined : { kind: 'precedence', first, later };
  }
  if (ast.isResponse(node)) {
    const trigger = resolved(node.trigger);
    const response = resolved(node.response);
    const within = lowerQuantity(node.within, aTime('the time to follow'), reader);
    if (trigger === undefined || response === undefined || (node.within !== undefined && within === undefined)) {
      return undefined;
    }
    return { kind: 'response', trigger, response, ...optional('within', within) };
  }
  if (ast.isAbsence(node)) {
    const act = resolved(node.act);
    const after = resolved(node.after);
    return act === undefined || after === undefined ? undefined : { kind: 'absence', act, after };
  }
  if (ast.isFinal(node)) {
    return { kind: 'final', test: lowerTest(node.test, reader.places.ofNode(node), reader) };
  }
  if (ast.isHoldBound(node)) {
    const act = resolved(node.act);
    const quantity = lowerQuantity(node.quantity, aTime('a hold'), reader);
    if (act === undefined || quantity === undefined || node.bound === undefined) return undefined;
    return { kind: 'hold', act, bound: node.bound === 'least' ? 'at-least' : 'at-most', quantity };
  }
  return undefined;
}
