/** Where a function that only rises or only falls takes a value between two ends. */
export type Crossing =
  /** There, to half the precision that was asked for. */
  | { readonly kind: 'at'; readonly x: number }
  /** The function is above the value from one end to the other. */
  | { readonly kind: 'above' }
  /** The function is below the value from one end to the other. */
  | { readonly kind: 'below' };

/**
 * Halves the interval until it is no wider than `precision`: ⌈log2((high − low)/precision)⌉ calls, for any function
 * that is monotone on the interval, steps and infinite values included. The precision is absolute, in the unit of `x`;
 * it is never finer than neighbouring floating-point numbers.
 */
export function crossing(
  f: (x: number) => number,
  target: number,
  interval: { readonly low: number; readonly high: number },
  precision: number,
): Crossing {
  let { low, high } = interval;
  const atLow = f(low);
  const atHigh = f(high);
  if (atLow === target) return { kind: 'at', x: low };
  if (atHigh === target) return { kind: 'at', x: high };
  if (atLow > target === atHigh > target) return { kind: atLow > target ? 'above' : 'below' };
  while (high - low > precision) {
    const middle = low + (high - low) / 2;
    if (middle <= low || middle >= high) break;
    if (f(middle) > target === atLow > target) low = middle;
    else high = middle;
  }
  return { kind: 'at', x: low + (high - low) / 2 };
}
