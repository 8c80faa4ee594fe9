import { type Refusal, refusal } from '../io.js';
import { listed } from '../report/words.js';

/** The one of `legal` that an option names, or what there is instead. */
export function choiceOf<const Choice extends string>(
  option: string,
  value: string,
  legal: readonly Choice[],
): { readonly kind: 'choice'; readonly choice: Choice } | Refusal {
  const choice = legal.find((one) => one === value);
  if (choice !== undefined) return { kind: 'choice', choice };
  return refusal(`"${value}" is nothing that ${option} can be.`, `It can be ${listed(legal, 'or')}.`);
}
