import type { Token } from './tokens.js';

/**
 * Which words of the language stand as names. An author may call an act `hold` or a value `stop`; the grammar knows names only
 * as one kind of token, so this is decided by the neighbours, and only on one line: `do hold` names an act, `do` with `hold 15 s`
 * on the next line lacks one. That keeps a broken line from swallowing the next.
 */

/** Words that carry the grammar and can never be names. */
const small = new Set('and or not is to from at of as below above most least always else'.split(' '));

/** A name follows these: first the words that declare, then those that refer. */
const introducers = new Set(
  (
    'observation reading state hazard act rule tool resin lamp injector consumable limits assume procedure example variation step ' +
    'during do with observe read caution waive raises makes confirms needs as is not no when and or suppose allows uses before after of end , ( :'
  ).split(' '),
);

/** Behind these the subject may be missing, as in `when is star`; they stay what they are. */
const askers = new Set(['no', 'after', 'when', 'needs', 'suppose', 'allows']);

/** These take a state and its value. */
const pairs = new Set(['makes', 'confirms']);

/** Whether `token`, a word of the language, is a name between these neighbours; `names` says which tokens before it are names. */
export function isName(
  token: Token,
  previous: Token | undefined,
  beforePrevious: Token | undefined,
  next: Token | undefined,
  isNameToken: (token: Token) => boolean,
): boolean {
  const word = token.image;
  if (small.has(word)) return false;
  // `hold comes before cure`, `hold is slow`: what is spoken of stands first.
  if (next !== undefined && next.startLine === token.startLine && /^(comes|is|below|above|[<>]=?)$/.test(next.image)) {
    return !askers.has(word);
  }
  if (previous === undefined || previous.startLine !== token.startLine) return false;
  if (isNameToken(previous)) {
    return beforePrevious !== undefined && pairs.has(beforePrevious.image) && !isNameToken(beforePrevious);
  }
  // `after step measure`, `instead of step cure`
  if (word === 'step' && /^(after|before|of)$/.test(previous.image)) return false;
  return introducers.has(previous.image);
}
