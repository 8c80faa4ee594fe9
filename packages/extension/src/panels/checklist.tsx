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
          <b>{words.checklistFor}:</b> {suppose.length === 0 ? words.everyJob : suppose.join('; ')}
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
 * made here, since the page around allows no style that stands in markup, not even where it is parsed.
 */
function Page({ text }: { readonly text: string }) {
  const host = useRef<HTMLDivElement>(null);
  useEffect(() => {
    if (host.current === null) return;
    const root = host.current.shadowRoot ?? host.current.attachShadow({ mode: 'open' });
    const { markup, style } = divided(text);
    const sheet = new CSSStyleSheet();
    sheet.replaceSync(style);
    root.adoptedStyleSheets = [sheet];
    const page = new DOMParser().parseFromString(markup, 'text/html');
    root.replaceChildren(document.importNode(page.documentElement, true));
  }, [text]);
  return <div class="page" ref={host} />;
}

/** A page has one style, in its head. */
function divided(page: string): { readonly markup: string; readonly style: string } {
  const [before = '', rest = ''] = page.split('<style>', 2);
  const end = rest.indexOf('</style>');
  return end < 0 ? { markup: page, style: '' } : { markup: before + rest.slice(end), style: rest.slice(0, end) };
}
