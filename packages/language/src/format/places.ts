import type { AstNode } from 'langium';
import * as ast from '../generated/ast.js';
import type { Word } from './words.js';

/** What parts two words. */
export type Parting =
  | { readonly kind: 'nothing' }
  | { readonly kind: 'space' }
  /** A space, or a line break where what it belongs to is folded: by the author, or because it is too long. */
  | { readonly kind: 'fold' }
  /** A space, or a line break where the line would be too long. */
  | { readonly kind: 'fill' }
  /** A clause or declaration begins. */
  | { readonly kind: 'clause'; readonly clause: Clause }
  /** A clause begins that the author wrote as one with the clause before it. */
  | { readonly kind: 'joined'; readonly clause: Clause }
  /** A block ends. */
  | { readonly kind: 'close' };

export interface Clause {
  /** How deep it stands: 0 for what stands in no block. */
  readonly level: number;
  /** The node it belongs to. */
  readonly owner: AstNode;
  readonly type: string;
}

/** The parts of each node that are clauses of a block, each on its own line where the block is. */
const clauses: ReadonlyMap<string, ReadonlySet<string>> = new Map(
  Object.entries({
    [ast.Sheet.$type]: ['uses', 'declarations'],
    [ast.Hazard.$type]: ['measures'],
    [ast.Act.$type]: ['needs', 'makes'],
    [ast.Rule.$type]: ['patterns'],
    [ast.Thing.$type]: ['properties'],
    [ast.Limits.$type]: ['allowances'],
    [ast.Assume.$type]: ['lines'],
    [ast.Procedure.$type]: ['parts'],
    [ast.Covers.$type]: ['tests'],
    [ast.Choose.$type]: ['cases', 'otherwise'],
    [ast.Block.$type]: ['parts'],
    [ast.Step.$type]: ['clauses'],
    [ast.Example.$type]: ['parts'],
    [ast.Variation.$type]: ['parts'],
    [ast.InStep.$type]: ['clauses'],
  }).map(([type, parts]) => [type, new Set(parts)]),
);

/** Clauses that are words of the node itself. */
const bareClauses: ReadonlyMap<string, ReadonlySet<string>> = new Map(
  Object.entries({
    [ast.Hazard.$type]: ['source'],
    [ast.Act.$type]: ['raises', 'source'],
    [ast.Rule.$type]: ['because', 'source', 'severity'],
  }).map(([type, words]) => [type, new Set(words)]),
);

/** Words that may begin a new line within a clause. */
const folds: ReadonlyMap<string, ReadonlySet<string>> = new Map(
  Object.entries({
    [ast.Need.$type]: ['because', 'source'],
    [ast.Waive.$type]: ['because'],
    [ast.OmitStep.$type]: ['because'],
    [ast.Allowance.$type]: ['when', 'because', 'source'],
    [ast.Assumed.$type]: ['when', 'because', 'source'],
    [ast.Precedence.$type]: ['when'],
    [ast.Response.$type]: ['when'],
    [ast.Absence.$type]: ['when'],
    [ast.Final.$type]: ['when'],
    [ast.HoldBound.$type]: ['when'],
    [ast.Junction.$type]: ['and', 'or'],
  }).map(([type, words]) => [type, new Set(words)]),
);

/** Whether a node is a clause of a block, or a declaration. */
function isClause(node: AstNode): boolean {
  const { $container, $containerProperty } = node;
  return $container !== undefined && clauses.get($container.$type)?.has($containerProperty ?? '') === true;
}

/** How deep what a node says stands: the number of blocks around it. */
export function levelOf(node: AstNode): number {
  let level = 0;
  for (let at = node; at.$container !== undefined; at = at.$container) {
    if (isClause(at) && !ast.isSheet(at.$container)) level += 1;
  }
  return level;
}

/** How many steps further than its clause a line is indented that begins within it. */
export function foldDepth({ node }: Word): number {
  let depth = 1;
  for (let at: AstNode | undefined = node; at !== undefined && !isClause(at); at = at.$container) {
    // Behind a condition comes a block, which stands one step further than the clause itself.
    if (ast.isBracketed(at) || ast.isWhenCase(at)) depth += 1;
  }
  return depth;
}

/** The nodes that begin with `word`, the outermost first. */
export function nodesFrom({ node, offset }: Word): readonly AstNode[] {
  const nodes: AstNode[] = [];
  for (let at: AstNode | undefined = node; at?.$cstNode?.offset === offset; at = at.$container) nodes.push(at);
  return nodes.reverse();
}

/** Whether a node is folded on its own, and not together with the clause it stands in. */
export function foldsAlone(node: AstNode): boolean {
  return ast.isJunction(node) || (ast.isComparison(node) && node.values.length > 1);
}

/** What parts `word` from `previous`; `last` is the clause begun last. */
export function partingBefore(word: Word, previous: Word | undefined, last: Clause | undefined): Parting {
  const clause = clauseAt(word);
  if (clause !== undefined) return { kind: joins(word, clause, last) ? 'joined' : 'clause', clause };
  if (word.text === '}') {
    return previous?.text === '{' && word.before.comments.length === 0 ? { kind: 'nothing' } : { kind: 'close' };
  }
  if (isMark(word, [',', ':', ')']) || previous === undefined || isMark(previous, ['('])) return { kind: 'nothing' };
  if (word.clings) return { kind: 'space' };
  if (ast.isValue(word.node) && word.node.$cstNode?.offset === word.offset) return { kind: 'fold' };
  if (previous.text === ',' && ast.isProperty(previous.node)) return { kind: 'fold' };
  if (previous.text === ',' && !ast.isResponse(previous.node)) return { kind: 'fill' };
  return { kind: beginsFold(word, previous) ? 'fold' : 'space' };
}

function clauseAt(word: Word): Clause | undefined {
  const { node } = word;
  if (!word.isName && bareClauses.get(node.$type)?.has(word.text) === true) {
    return { level: levelOf(node) + 1, owner: node, type: word.text };
  }
  const begun = nodesFrom(word).find(isClause);
  if (begun?.$container === undefined) return undefined;
  return { level: levelOf(begun), owner: begun.$container, type: begun.$type };
}

/** `do cure with bench` and `read glass-temperature accept …` are two clauses that an author may write as one. */
function joins(word: Word, { owner, type }: Clause, last: Clause | undefined): boolean {
  if (last === undefined || last.owner !== owner) return false;
  const { comments, breaks, separatedAfter } = word.before;
  if (separatedAfter !== undefined || breaks > 0 || comments.some((comment) => comment.breaks > 0)) return false;
  return (
    (type === ast.With.$type && last.type === ast.Do.$type) ||
    (type === ast.Accept.$type && last.type === ast.Read.$type)
  );
}

function beginsFold(word: Word, previous: Word): boolean {
  const { node, text } = word;
  if (word.isName) return false;
  if (ast.isOrElse(node)) return text === 'or' && !ast.isRepeat(node.$container);
  // The name of a need may come behind its reason.
  if (ast.isNeed(node) && text === 'as') return ast.isNeed(previous.node);
  return folds.get(node.$type)?.has(text) === true;
}

function isMark({ text }: Word, marks: readonly string[]): boolean {
  return marks.includes(text);
}
