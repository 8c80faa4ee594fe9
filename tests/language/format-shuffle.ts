import { createQuarrelServices } from '@quarrel/language';
import fc from 'fast-check';
import type { AstNode } from 'langium';

const { quarrel } = createQuarrelServices();

interface Mark {
  readonly type: string;
  readonly image: string;
  readonly offset: number;
  readonly isComment: boolean;
}

/** All words, marks and comments of a text in order, without `;`; the lines of comments without their indent. */
export function marksOf(text: string): readonly Mark[] {
  const { tokens, hidden } = quarrel.parser.Lexer.tokenize(text);
  const comments = new Set(hidden);
  return [...tokens, ...hidden]
    .sort((a, b) => a.startOffset - b.startOffset)
    .filter(({ image }) => image !== ';')
    .map((token) => ({
      type: token.tokenType.name,
      image: comments.has(token) ? token.image.replace(/[ \t\r]*\n[ \t]*/g, '\n').trimEnd() : token.image,
      offset: token.startOffset,
      isComment: comments.has(token),
    }));
}

/** The marks as one would compare them: without their places. */
export const spelled = (text: string): readonly string[] => marksOf(text).map(({ type, image }) => `${type} ${image}`);

/** What a text was read as, without places and comments; `undefined` where it cannot be read whole. */
export function treeOf(text: string): unknown {
  const { value, parserErrors, lexerErrors } = quarrel.parser.LangiumParser.parse(text);
  return parserErrors.length + lexerErrors.length > 0 ? undefined : plain(value);
}

function plain(value: unknown): unknown {
  if (Array.isArray(value)) return value.map(plain);
  if (value === null || typeof value !== 'object') return value;
  if ('$refText' in value) return value.$refText;
  const isNode = (one: object): one is AstNode => '$type' in one;
  const entries = Object.entries(value).filter(([key]) => !key.startsWith('$'));
  return Object.fromEntries([['type', isNode(value) ? value.$type : ''], ...entries.map(([k, v]) => [k, plain(v)])]);
}

/** What may be put between two words: white space that breaks no line, white space that does, comments. */
const beside = fc.constantFrom(' ', ' ', ' ', '  ', '\t', ' /* aside */ ', '/**/', '   /* one */ /** two */ ');
const apart = fc.constantFrom(
  '\n',
  '\n',
  '\n',
  '\n  ',
  '\n\n',
  '\n\n\n\t',
  '\r\n      ',
  ' // at the end\n',
  '\n// on its own   \n',
  '\n\n      // after a gap\n\n',
  ' /* at the end */\n',
  '\n/* before */ ',
  '\n   /**\n      * with stars\n*/\n',
  ' /* over\n      lines */ ',
  '\n  /*\n    a box\n      in it\n  */\n',
);
const separated = fc.constantFrom(
  '; ',
  ';',
  ' ; ',
  ';\n',
  ';;',
  '; // apart\n',
  '/* a */;/* b */',
  '\n;\n',
  '\n\n/* c */\n; ',
);

/** How often, in percent, a line break goes, comes, and gives way to `;`. */
interface Mood {
  readonly keepsBreaks: number;
  readonly addsBreaks: number;
  readonly separates: number;
}

const moods: fc.Arbitrary<Mood> = fc.constantFrom(
  { keepsBreaks: 100, addsBreaks: 0, separates: 0 },
  { keepsBreaks: 95, addsBreaks: 4, separates: 20 },
  { keepsBreaks: 60, addsBreaks: 10, separates: 80 },
  { keepsBreaks: 0, addsBreaks: 0, separates: 100 },
  { keepsBreaks: 100, addsBreaks: 40, separates: 0 },
);

/** A text with other white space, other comments and other `;` between the same words, not always one that can be read. */
export function shuffled(text: string): fc.Arbitrary<string> {
  const words = marksOf(text).filter(({ isComment }) => !isComment);
  const percent = fc.integer({ min: 0, max: 99 });
  const choices = fc.array(fc.tuple(percent, percent, beside, apart, separated), {
    minLength: words.length + 1,
    maxLength: words.length + 1,
  });
  return fc.tuple(moods, choices).map(([mood, chosen]) => {
    let written = '';
    let depth = 0;
    let end = 0;
    for (const [at, word] of words.entries()) {
      const [first = 0, second = 0, side = ' ', line = '\n', parted = ';'] = chosen[at] ?? [];
      const isBroken = text.slice(end, word.offset).includes('\n');
      const isInside = depth > 0 && words[at - 1]?.image !== '{' && word.image !== '}';
      // A unit stands on the line of its number; everything else is for the reader to accept or refuse.
      if (word.type === 'UNIT') written += side.trim() === '' ? '' : side;
      else if (isBroken && first >= mood.keepsBreaks) written += isInside ? parted : side;
      else if (isBroken) written += isInside && second < mood.separates ? parted : line;
      else written += first < mood.addsBreaks ? line : side;
      written += word.image;
      depth += word.image === '{' ? 1 : word.image === '}' ? -1 : 0;
      end = word.offset + word.image.length;
    }
    const [, , , last = ''] = chosen[words.length] ?? [];
    return written + last;
  });
}
