import { ast } from '@quarrel/language';
import type { GrammarAST } from 'langium';
import { CompletionItemKind } from 'vscode-languageserver';
import type { Place } from '../place/place.js';
import { netFor } from '../place/place.js';
import { isWithin, metIn, type Thread, wordsBehind } from '../place/threads.js';
import { type Asked, declared } from './asked.js';
import { wordDocumentation } from './documentation.js';
import type { Offer } from './offer.js';

/** What may be said once in a block. */
const once: Readonly<Record<string, readonly string[]>> = {
  Step: ['takes', 'hold'],
  InStep: ['takes', 'hold'],
  Procedure: ['revision', 'covers', 'within'],
  Variation: ['revision', 'covers', 'within'],
  Choose: ['otherwise'],
  Example: ['lasts', 'stops'],
  Rule: ['severity', 'because'],
};

/** Words that begin something by how often they are meant; those that are not here come behind. */
const order =
  'accept step stage when repeat stop do observe read with takes hold check caution note photo meanwhile needs makes raises'.split(
    ' ',
  );

/** What stands at the head of a procedure, in the order in which it is written. */
const head = ['revision', 'covers', 'within', 'choose'];

/** Whether a rule asks for something already: it has one pattern. */
export function isAskedAlready({ expected }: Thread, { levels }: Place): boolean {
  const top = levels.at(-1);
  if (top?.frame?.rule !== 'Rule' || !/^(Precedence|Response|Absence|Final|HoldBound)$/.test(expected.rule))
    return false;
  const begins = top.base.some((one) => one.expected === expected);
  const isPattern = (word: string | undefined): boolean =>
    word !== undefined && !/^(because|source|severity)$/.test(word);
  return begins && top.items.some(({ tokens }) => isPattern(tokens[0]?.image));
}

/** A word of the language, with those that have to follow it; nothing where it makes no sense here. */
export function wordFor(thread: Thread, asked: Asked, grammar: GrammarAST.Grammar): readonly Offer[] {
  const { keyword } = thread.expected;
  if (keyword === undefined || !/^[a-z]/.test(keyword) || !makesSense(keyword, thread, asked)) return [];
  const label = [keyword, ...wordsBehind(netFor(grammar), thread)].join(' ');
  const documentation = wordDocumentation(keyword);
  return [
    {
      label,
      kind: CompletionItemKind.Keyword,
      rank: rankOf(keyword, thread, asked.place),
      ...(documentation === undefined ? {} : { documentation }),
    },
  ];
}

function makesSense(keyword: string, { expected, frame }: Thread, asked: Asked): boolean {
  const { place } = asked;
  const top = place.levels.at(-1);
  const block = top?.frame?.rule;
  const there = (top?.items ?? []).map(({ tokens }) => tokens[0]?.image);
  if (isWithin(frame, 'Stray')) return false;
  const begins = top?.base.some((one) => one.expected === expected) ?? false;
  if (block !== undefined && begins && once[block]?.includes(keyword) && there.includes(keyword)) return false;
  if (expected.rule === 'Accept' && keyword === 'accept') {
    return top?.items.filter(({ isBehind }) => !isBehind).at(-1)?.tokens[0]?.image === 'read';
  }
  if (expected.rule === 'Comparison') return fitsSubject(keyword, metIn(frame, 'Comparison', 'subject')[0], asked);
  return true;
}

/** Values are asked for with `is`; what an instrument reads is held against quantities. */
function fitsSubject(keyword: string, subject: string | undefined, asked: Asked): boolean {
  const node = declared(asked, 'subject', subject);
  if (node === undefined) return true;
  return ast.isReading(node) ? keyword !== 'not' : keyword === 'is' || keyword === 'not';
}

/** Continuations come before new beginnings within a block, and behind them outside of one. */
function rankOf(keyword: string, { expected }: Thread, { levels, item }: Place): number {
  // Of a test the names come first.
  if (/^(Negation|Always)$/.test(expected.rule)) return 9;
  const top = levels.at(-1);
  if (!top?.base.some((one) => one.expected === expected)) return levels.length === 1 && item.length > 0 ? 95 : 10;
  const isHead = !top.items.some(({ tokens, isBehind }) => !isBehind && order.includes(tokens[0]?.image ?? ''));
  if (isHead && head.includes(keyword)) return 20 + head.indexOf(keyword);
  const at = order.indexOf(keyword);
  return at < 0 ? 80 : 30 + at;
}
