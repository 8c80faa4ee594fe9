/**
 * Text of a sheet inside Markdown: on one line, and nothing in it is markup. Read as plain text it stays as it was, but for a
 * backslash before the few characters that would be read as markup.
 */
export function escaped(text: string): string {
  return text
    .trim()
    .replace(/\s+/g, ' ')
    .replace(/[\\`*_[\]<>~|$]/g, '\\$&')
    .replace(/&(?=[#\w])/g, '\\&')
    .replace(/^([-+#=])/, '\\$1')
    .replace(/^(\d+)([.)])/, '$1\\$2');
}
