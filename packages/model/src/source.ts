/** A place in a text. Lines and columns count from 0; columns are UTF-16 code units, as editors count them. */
export interface Position {
  readonly line: number;
  readonly column: number;
}

/** A stretch of one sheet's text; `end` is just behind its last character. */
export interface SourceRange {
  /** The sheet's address, a URI: `file:///…` or `quarrel:/…` for what ships. */
  readonly uri: string;
  readonly start: Position;
  readonly end: Position;
}

/** Anything that stands somewhere in a sheet. */
export interface Sourced {
  readonly range: SourceRange;
}
