/** What the links of hovers may do. */
export const linkCommands = ['quarrel.showRule'] as const;

/** The address of a rule's page at the end of a link. */
const page = /\]\(quarrel:\/rules\/([a-z0-9-]+)\.md\)/g;

/**
 * Markdown of the server with links to the pages of rules that work: VS Code takes out links with an address of a scheme that is
 * not its own, so that they have to be commands.
 */
export function withPageLinks(markdown: string): string {
  const [command] = linkCommands;
  return markdown.replace(
    page,
    (_, rule: string) => `](command:${command}?${encodeURIComponent(JSON.stringify([rule]))})`,
  );
}
