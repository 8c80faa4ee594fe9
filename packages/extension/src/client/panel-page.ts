import { Uri, type Webview } from 'vscode';
import type { View } from '../panels/messages.js';

/** What the page of a panel is made of. */
export interface Page {
  readonly view: View;
  readonly title: string;
  /** The language of the editor, as a language tag. */
  readonly language: string;
}

/** The page of a panel. It may run our script, use our style sheet, and reach nothing else. */
export function pageOf(webview: Webview, extension: Uri, { view, title, language }: Page): string {
  const file = (name: string): string => webview.asWebviewUri(Uri.joinPath(extension, 'dist', name)).toString();
  const nonce = crypto.randomUUID();
  const policy = [
    "default-src 'none'",
    `script-src 'nonce-${nonce}'`,
    `style-src ${webview.cspSource} 'nonce-${nonce}'`,
    `font-src ${webview.cspSource}`,
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
<body data-view="${view}" data-nonce="${nonce}">
<script nonce="${nonce}" src="${file('panel.js')}"></script>
</body>
</html>`;
}

function escaped(text: string): string {
  return text.replace(/[&<>"]/g, (sign) => `&#${sign.charCodeAt(0)};`);
}
