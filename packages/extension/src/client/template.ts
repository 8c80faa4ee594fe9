import templates from 'text:packages/cli/templates/*.quarrel';

/** The name of the sheet of what a shop works with. */
export const equipmentName = 'equipment';

/** What a new procedure is called. */
export interface Naming {
  readonly name: string;
  readonly title: string;
  /** The name of the sheet it takes its resins, lamps and tools from. */
  readonly equipment: string;
}

/** The first procedure that `quarrel new` writes, under another name. */
export function procedureCalled({ name, title, equipment }: Naming): string {
  const label = title.replace(/[\r\n]+/g, ' ').replace(/["\\]/g, '\\$&');
  return template('surface-pit')
    .replace(/^procedure [\w-]+ "[^"]*"/m, () => `procedure ${name} "${label}"`)
    .replace(`use "${equipmentName}"`, () => `use "${equipment}"`)
    .replace(`${equipmentName}.quarrel`, () => `${equipment}.quarrel`);
}

/** The sheet of what a shop works with, as `quarrel new` writes it. */
export function equipmentSheet(): string {
  return template(equipmentName);
}

/** Whether a text can be the name of a procedure. */
export function isName(text: string): boolean {
  return /^\p{L}[\p{L}\p{N}]*(-[\p{L}\p{N}]+)*$/u.test(text);
}

/** `surface-pit` → `Surface pit`. */
export function titleOf(name: string): string {
  const words = name.replaceAll('-', ' ');
  return words.charAt(0).toUpperCase() + words.slice(1);
}

function template(name: string): string {
  return templates[`packages/cli/templates/${name}.quarrel`] ?? '';
}
