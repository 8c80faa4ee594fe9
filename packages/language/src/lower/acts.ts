import type { Act, Allowance, Hazard, Limits, Need, StateValue } from '@quarrel/model';
import type * as ast from '../generated/ast.js';
import { declared } from './declared.js';
import { joined, optional, type Reader, resolved } from './reader.js';
import { lowerTest } from './tests.js';

export function lowerHazard(node: ast.Hazard, reader: Reader): Hazard | undefined {
  const own = declared(node, reader);
  if (own === undefined || node.signal === undefined) return undefined;
  const measures = node.measures.flatMap(({ kind, text }) => (text === undefined ? [] : [{ kind, text }]));
  return { kind: 'hazard', ...own, signal: node.signal, measures, ...optional('source', joined(node.sources, '; ')) };
}

export function lowerAct(node: ast.Act, reader: Reader): Act | undefined {
  const own = declared(node, reader);
  if (own === undefined) return undefined;
  return {
    kind: 'act',
    ...own,
    needs: node.needs.map((need) => lowerNeed(need, reader)),
    makes: node.makes.flatMap(({ made }) => lowerStateValue(made, reader) ?? []),
    raises: node.raises.flatMap((hazard) => resolved(hazard) ?? []),
    ...optional('source', joined(node.sources, '; ')),
  };
}

function lowerNeed(node: ast.Need, reader: Reader): Need {
  const range = reader.places.ofNode(node);
  return {
    ...optional('rule', node.name),
    test: lowerTest(node.test, range, reader),
    ...because(node),
    range,
  };
}

/** A state and a value of it; nothing where one of them did not resolve. */
export function lowerStateValue(node: ast.StateValue | undefined, reader: Reader): StateValue | undefined {
  const state = resolved(node?.state);
  const value = resolved(node?.value);
  if (node === undefined || state === undefined || value === undefined) return undefined;
  return { state, value, range: reader.places.ofNode(node) };
}

/** Reasons and sources, several of them as one text. */
export function because(node: { readonly because: readonly string[]; readonly sources: readonly string[] }): {
  readonly because?: string;
  readonly source?: string;
} {
  return {
    ...optional('because', joined(node.because, ' ')),
    ...optional('source', joined(node.sources, '; ')),
  };
}

export function lowerLimits(node: ast.Limits, reader: Reader): Limits | undefined {
  const own = declared(node, reader);
  if (own === undefined) return undefined;
  return { kind: 'limits', ...own, allowances: node.allowances.map((one) => lowerAllowance(one, reader)) };
}

function lowerAllowance(node: ast.Allowance, reader: Reader): Allowance {
  const range = reader.places.ofNode(node);
  const [when, second] = node.when;
  if (second !== undefined) reader.complain('`allows` has one `when`.', reader.places.ofNode(second));
  return {
    test: lowerTest(node.test, range, reader),
    ...optional('when', when === undefined ? undefined : lowerTest(when, range, reader)),
    ...because(node),
    range,
  };
}
