/** A piece of HTML that is safe to put into a page. Made by `html` only, which escapes every text it is given. */
export class Markup {
  constructor(readonly text: string) {}
}

export type Content = string | number | Markup | readonly Content[] | undefined;

/** `html\`<p>${text}</p>\``: texts are escaped, markup and lists of it are taken as they are, `undefined` leaves nothing. */
export function html(strings: TemplateStringsArray, ...contents: readonly Content[]): Markup {
  return new Markup(
    strings.reduce(
      (text, string, index) => text + string + (index < contents.length ? render(contents[index]) : ''),
      '',
    ),
  );
}

function render(content: Content): string {
  if (content === undefined) return '';
  if (content instanceof Markup) return content.text;
  if (typeof content === 'string' || typeof content === 'number') return escapeHtml(String(content));
  return content.map(render).join('');
}

const entities: Readonly<Record<string, string>> = {
  '&': '&amp;',
  '<': '&lt;',
  '>': '&gt;',
  '"': '&quot;',
  "'": '&#39;',
};

/** Text as HTML shows it, in elements and in quoted attributes. Characters that HTML cannot hold become U+FFFD. */
export function escapeHtml(text: string): string {
  return text.replace(unprintable, '\uFFFD').replace(/[&<>"']/g, (character) => entities[character] ?? character);
}

const unprintable = /\p{Cc}(?<![\t\n\r])|\p{Cs}/gu;

/** Text inside a quoted string of CSS: everything but letters, digits and spaces is written as a code point. */
export function escapeCss(text: string): string {
  return text.replace(/[^A-Za-z0-9 ]/gu, (character) => `\\${(character.codePointAt(0) ?? 0xfffd).toString(16)} `);
}
