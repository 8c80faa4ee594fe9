// The colours of a sheet as a TextMate grammar, made from the words of the language. What a name stands for is not seen from the
// letters alone: the server says that (semantic tokens), and these colours are what is there before it, and where there is none.

/** Words that begin a declaration and have its name behind them. */
const declaring =
  'procedure variation example choose limits observation reading state hazard act rule tool resin lamp injector consumable';

/** Words of the flow, which say what is done when. */
const flowing = 'stage step when otherwise repeat until times stop meanwhile else';

/** Words that stand between the parts of a test, a span or a rule. */
const joining =
  'is not and or at least most below above from to in of as after before always comes follows within under no the end instead';

/** Signal words and others that are values. */
const valued = 'danger warning notice error info';

const name = '[\\p{L}][\\p{L}\\p{N}]*(?:-[\\p{L}\\p{N}]+)*';
const before = '(?<![\\p{L}\\p{N}-])';
const behind = '(?![\\p{L}\\p{N}-])';
const kinds = '(?:tool|resin|lamp|injector|consumable)';

/** The grammar for the words of the language; every one of them has a colour, whichever group it is in. */
export function coloursFor(words) {
  const groups = { declaring, flowing, joining, valued };
  const grouped = new Set(Object.values(groups).flatMap((group) => group.split(' ')));
  const rest = words.filter((word) => !grouped.has(word));
  const of = (group) => oneOf(words.filter((word) => groups[group].split(' ').includes(word)));
  return {
    name: 'quarrel',
    scopeName: 'source.quarrel',
    fileTypes: ['quarrel'],
    patterns: [
      { include: '#comments' },
      { include: '#texts' },
      { include: '#quantities' },
      {
        match: `${before}(choose)\\s+(${kinds})\\s+(${name})`,
        captures: {
          1: { name: 'storage.type.quarrel' },
          2: { name: 'storage.type.quarrel' },
          3: { name: 'entity.name.quarrel' },
        },
      },
      {
        match: `${before}(step)\\s+(${name})(?=\\s*(?:["{;]|$))`,
        captures: { 1: { name: 'keyword.control.quarrel' }, 2: { name: 'entity.name.function.quarrel' } },
      },
      {
        match: `${before}(procedure|variation|act|rule)\\s+(${name})`,
        captures: { 1: { name: 'storage.type.quarrel' }, 2: { name: 'entity.name.function.quarrel' } },
      },
      {
        match: `${before}(observation|reading|state|hazard|limits|${kinds})\\s+(${name})`,
        captures: { 1: { name: 'storage.type.quarrel' }, 2: { name: 'entity.name.quarrel' } },
      },
      {
        match: `${before}(do)\\s+(${name}(?:\\s*,\\s*${name})*)`,
        captures: {
          1: { name: 'keyword.other.quarrel' },
          2: { patterns: [{ match: name, name: 'entity.name.function.quarrel' }] },
        },
      },
      { name: 'storage.type.quarrel', match: of('declaring') },
      { name: 'keyword.control.quarrel', match: of('flowing') },
      { name: 'keyword.operator.expression.quarrel', match: of('joining') },
      { name: 'constant.language.quarrel', match: of('valued') },
      { name: 'keyword.other.quarrel', match: oneOf(rest) },
      { name: 'variable.other.quarrel', match: name },
    ],
    repository: {
      comments: {
        patterns: [
          blockComment('comment.block.documentation.quarrel', '/\\*\\*(?!/)'),
          blockComment('comment.block.quarrel', '/\\*'),
          {
            name: 'comment.line.double-slash.quarrel',
            match: '(//).*$',
            captures: { 1: { name: 'punctuation.definition.comment.quarrel' } },
          },
        ],
      },
      texts: {
        patterns: [
          {
            name: 'string.quoted.double.quarrel',
            match: '"((?:\\\\.|[^"\\\\])*)"?',
            captures: { 1: { patterns: [{ match: '\\\\.', name: 'constant.character.escape.quarrel' }] } },
          },
        ],
      },
      // As in the lexer, what stands behind a number on its line is its unit, unless it is a word of the language.
      quantities: {
        patterns: [
          {
            match: `${before}([-−]?\\d+(?:\\.\\d+)?)(?:[ \\t]*(?!(?:${words.join('|')})${behind})([°%µ\\p{L}][^\\s;,{}()":<>=]*))?`,
            captures: { 1: { name: 'constant.numeric.quarrel' }, 2: { name: 'keyword.other.unit.quarrel' } },
          },
        ],
      },
    },
  };
}

function oneOf(words) {
  return `${before}(?:${words.join('|')})${behind}`;
}

function blockComment(scope, begin) {
  const captures = { 0: { name: 'punctuation.definition.comment.quarrel' } };
  return { name: scope, begin, beginCaptures: captures, end: '\\*/', endCaptures: captures };
}
