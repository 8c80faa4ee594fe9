import type { InitializationOptions } from '@quarrel/server/protocol';
import { Hover, type LogOutputChannel, MarkdownString, type MarkedString, workspace } from 'vscode';
import { type BaseLanguageClient, type LanguageClientOptions, RevealOutputChannelOn } from 'vscode-languageclient';
import { linkCommands, withPageLinks } from './rule-links.js';

/** The id of the language, of the settings and of the server. */
export const languageId = 'quarrel';

/** Where sheets can stand. Earlier versions of a sheet, as source control shows them, are not among it: nobody mends those. */
const schemes = ['file', 'untitled', 'quarrel', 'vscode-vfs', 'vscode-remote'];

/** What the server is told and asked about. */
export function clientOptions(log: LogOutputChannel, filesFromClient: boolean): LanguageClientOptions {
  const folders = (workspace.workspaceFolders ?? []).map(({ uri }) => uri.scheme);
  return {
    documentSelector: [...new Set([...schemes, ...folders])].map((scheme) => ({ language: languageId, scheme })),
    diagnosticCollectionName: languageId,
    outputChannel: log,
    revealOutputChannelOn: RevealOutputChannelOn.Never,
    initializationOptions: { filesFromClient } satisfies InitializationOptions,
    markdown: { supportHtml: false },
    middleware: {
      provideHover: async (document, position, token, next) => {
        const hover = await next(document, position, token);
        return hover && new Hover(hover.contents.map(linked), hover.range);
      },
    },
  };
}

/** What the server tells on hover, with links that open the pages of rules and can do nothing else. */
function linked(content: MarkdownString | MarkedString): MarkdownString | MarkedString {
  if (!(content instanceof MarkdownString)) return content;
  const markdown = new MarkdownString(withPageLinks(content.value));
  markdown.isTrusted = { enabledCommands: [...linkCommands] };
  return markdown;
}

/** Asks the server; nothing where it does not run, which the editor has told already. */
export async function ask<Answer>(
  client: BaseLanguageClient,
  method: string,
  params: object,
): Promise<Answer | undefined> {
  return client.isRunning() ? client.sendRequest<Answer>(method, params) : undefined;
}
