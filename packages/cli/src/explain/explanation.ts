/** One rule, and what can be told of it. */
export interface Explanation {
  readonly name: string;
  /** What it finds or asks, in one line. */
  readonly title: string;
  /** Where it comes from, as the heading of a list. */
  readonly group: string;
  text(colours: boolean): string;
}
