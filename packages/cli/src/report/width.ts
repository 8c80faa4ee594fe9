/**
 * Characters that take two columns on a terminal: the wide and fullwidth ones of Unicode's East Asian Width (UAX 11) in its
 * large stretches, from memory, and what is shown as an emoji.
 */
const wide =
  /[\u1100-\u115f\u2e80-\u303e\u3041-\u33ff\u3400-\u4dbf\u4e00-\u9fff\ua000-\ua4cf\ua960-\ua97f\uac00-\ud7a3\uf900-\ufaff\ufe30-\ufe6f\uff00-\uff60\uffe0-\uffe6\u{20000}-\u{3fffd}\p{Emoji_Presentation}]/u;

/** Characters that take no column of their own: they are put onto the one before. */
const without = /\p{Mn}|\p{Me}|\p{Variation_Selector}|[\u200b\u200c]|\u200d/u;

/** How many columns a text takes on a terminal. */
export function widthOf(text: string): number {
  let width = 0;
  for (const character of text) width += without.test(character) ? 0 : wide.test(character) ? 2 : 1;
  return width;
}
