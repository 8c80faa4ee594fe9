import type { View } from '../panels/messages.js';

/** What the page of a panel is made of. */
export interface Page {
  readonly view: View;
  readonly title: string;
  /** The language of the editor, as a language tag. */
  readonly language: string;
  /** Where our own files come from, as a source of a content security policy. */
  readonly source: string;
  /** The address of one of our files. */
  file(name: string): string;
}

/** The page of a panel. It may run our script, use our style sheet, and reach nothing else. */
export function pageOf({ view, title, language, source, file }: Page): string {
  const nonce = crypto.randomUUID();
  const policy = [
    "default-src 'none'",
    `script-src 'nonce-${nonce}'`,
    `style-src ${source}`,
    `font-src ${source}`,
  ].join('; ');
  return `<!DOCTYPE html>
<html lang="${escaped(language)}">
<head>
<meta charset="utf-8">
<meta name="viewport" content="width=device-width, initial-scale=1">
<meta http-equiv="Content-Security-Policy" content="${policy}">
<title>${escaped(title)}</title>
<link rel="stylesheet" href="${file('panel.css')}">
</head>
<body data-view="${view}">
<script nonce="${nonce}" src="${file('panel.js')}"></script>
</body>
</html>`;
}

function escaped(text: string): string {
  return text.replace(/[&<>"]/g, (sign) => `&#${sign.charCodeAt(0)};`);
}
