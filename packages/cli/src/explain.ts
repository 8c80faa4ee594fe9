// What explaining takes, behind one door: it is opened only by those who explain, so that the rest starts fast.

import type { Explanation } from './explain/explanation.js';
import { pageExplanations } from './explain/pages.js';
import { tradeExplanations } from './explain/trade.js';

export { nearest } from '@quarrel/language';
export { listText } from './explain/list.js';

/** Everything there is to explain: Quarrel's own rules, then those of the trade sheets that ship. */
export async function explanations(): Promise<readonly Explanation[]> {
  return [...pageExplanations(), ...(await tradeExplanations())];
}
