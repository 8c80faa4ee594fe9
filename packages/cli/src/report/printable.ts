/**
 * A text of a sheet as it may go to a terminal: what would steer the terminal or turn the direction of writing is shown as `·`.
 */
export function printable(text: string): string {
  return text.replace(/[\p{Cc}\u2028\u2029\u200e\u200f\u202a-\u202e\u2066-\u2069]/gu, '·');
}
