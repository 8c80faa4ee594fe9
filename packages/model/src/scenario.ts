/**
 * One situation: a value for every condition. An observation's value by its name, a reading's as a number in the SI unit of
 * its dimension.
 */
export type Scenario = Readonly<Record<string, string | number>>;
