import type { ChecklistCaution } from '../checklist.js';
import { measureWords, sentence, signalWords } from '../wording.js';
import { html, type Markup } from './markup.js';

/**
 * The safety alert symbol of ISO 3864 and ANSI Z535: a triangle with an exclamation mark. It stands for danger to people,
 * so never beside NOTICE. The signal word says the same, so screen readers pass it over.
 */
const alertSymbol = html`<svg viewBox="0 0 24 24" aria-hidden="true"><path d="M12 2.5 23 21.5H1Z" fill="none" stroke="currentColor" stroke-width="2.2" stroke-linejoin="round"/><path d="M12 9v6M12 17v2" stroke="currentColor" stroke-width="2.4"/></svg>`;

/** A caution as a box whose weight follows its signal word; it needs no colour. */
export function caution(one: ChecklistCaution): Markup {
  const measures = measureWords(one);
  return html`<div class="caution ${one.signal === 'notice' ? 'notice-word' : one.signal}" role="note">${
    one.signal === 'notice' ? undefined : alertSymbol
  }<p><span class="signal">${signalWords[one.signal]}</span><strong>${sentence(one.label)}</strong> ${measures}</p></div>`;
}
