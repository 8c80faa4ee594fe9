import { TextDocument } from 'langium';
import { NormalizedTextDocuments } from 'langium/lsp';

/** The texts that are open in the editor. An edit of a text that is older than the one known has come too late, and is passed over. */
export function openTexts(): NormalizedTextDocuments<TextDocument> {
  return new NormalizedTextDocuments({
    create: TextDocument.create,
    update: (document, changes, version) =>
      version < document.version ? document : TextDocument.update(document, changes, version),
  });
}
