import type { LanguageServer } from 'langium/lsp';
import type { EditSkills } from './code-actions.js';

/** What the editor at the other end can do with an edit, as it says when it begins. */
export function editSkills(server: LanguageServer): () => EditSkills {
  let skills: EditSkills = { snippets: false };
  server.onInitialize(({ capabilities }) => {
    const { documentChanges = false, snippetEditSupport = false } = capabilities.workspace?.workspaceEdit ?? {};
    skills = { snippets: documentChanges && snippetEditSupport };
  });
  return () => skills;
}
