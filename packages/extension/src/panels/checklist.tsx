import { useEffect, useRef } from 'preact/hooks';
import type { Words } from './words.js';

interface ChecklistProps {
  /** The page as it would be written; its maker has escaped every text in it. */
  readonly page: string;
  readonly draft: boolean;
  readonly suppose: readonly string[];
  readonly words: Words;
  readonly onSuppose: (suppose: readonly string[]) => void;
}

export function ChecklistView({ page, draft, suppose, words, onSuppose }: ChecklistProps) {
  return (
    <>
      <section class="strip" aria-label={words.checklistFor}>
        <p>
          <b>{words.checklistFor}</b> {suppose.length === 0 ? words.everyJob : suppose.join('; ')}
        </p>
        {draft && (
          <p class="draft" role="status">
            {words.draft}
          </p>
        )}
        {suppose.length > 0 && (
          <button type="button" class="link" onClick={() => onSuppose([])}>
            {words.showEveryJob}
          </button>
        )}
      </section>
      <Page text={page} />
    </>
  );
}

/**
 * The page in a tree of its own, so that neither style touches the other. It is parsed without being run; its style goes in as a sheet
 * made here, since the page around allows no style that stands in markup.
 */
function Page({ text }: { readonly text: string }) {
  const host = useRef<HTMLDivElement>(null);
  useEffect(() => {
    if (host.current === null) return;
    const root = host.current.shadowRoot ?? host.current.attachShadow({ mode: 'open' });
    const page = new DOMParser().parseFromString(text, 'text/html');
    const sheet = new CSSStyleSheet();
    sheet.replaceSync([...page.querySelectorAll('style')].map((style) => style.textContent).join('\n'));
    root.adoptedStyleSheets = [sheet];
    for (const part of page.querySelectorAll('style, script')) part.remove();
    root.replaceChildren(document.importNode(page.documentElement, true));
  }, [text]);
  return <div class="page" ref={host} />;
}
