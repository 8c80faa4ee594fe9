// What client and server say to each other beyond the Language Server Protocol. Types and names only: the client and the panels
// import this file and get no code of the server with it. Positions and ranges are the protocol's (lines and characters from 0).
// What ships has addresses of the scheme `quarrel`: sheets at `quarrel:/NAME.quarrel`, the pages of rules at
// `quarrel:/rules/NAME.md`. Their texts come by the protocol's own `workspace/textDocumentContent`.

import type { Coverage, CoverageQuestion, Holds, HoldsQuestion, Picked, Timeline } from '@quarrel/pictures';

/** A procedure of a sheet that is open or on disk. */
export interface ProcedureAddress {
  readonly uri: string;
  /** Its name; the one at `line`, or else the first of the sheet, where it is missing. */
  readonly procedure?: string;
  /** A line of the sheet, from 0: the cursor's. */
  readonly line?: number;
}

/** Why there is nothing to show; worded for people. */
export interface Nothing {
  readonly kind: 'nothing';
  readonly reason: string;
}

/** `quarrel/timeline`: the timeline of a procedure in one situation. */
export interface TimelineParams extends ProcedureAddress {
  readonly picked: Picked;
}
export type TimelineAnswer = { readonly kind: 'timeline'; readonly timeline: Timeline } | Nothing;

/** `quarrel/coverage`: two conditions as a grid. */
export interface CoverageParams extends ProcedureAddress {
  readonly question: CoverageQuestion;
}
export type CoverageAnswer = { readonly kind: 'coverage'; readonly coverage: Coverage } | Nothing;

/** `quarrel/holds`: holds of the steps that press resin in, beside what the resin is estimated to need at each temperature. */
export interface HoldsParams extends ProcedureAddress {
  readonly question: HoldsQuestion;
}
export type HoldsAnswer = { readonly kind: 'holds'; readonly holds: Holds } | Nothing;

/** `quarrel/checklist`: the compiled checklist as the page that would be written; a draft where the procedure has errors. */
export interface ChecklistParams extends ProcedureAddress {
  /** Conditions supposed, in the language's words: `break is star`. */
  readonly suppose: readonly string[];
  readonly format: 'html' | 'md' | 'json';
}
export type ChecklistAnswer =
  | { readonly kind: 'checklist'; readonly procedure: string; readonly draft: boolean; readonly text: string }
  | Nothing;

/** `quarrel/checked`, server to client: sheets whose findings are up to date again, with the counts of the whole workspace. */
export interface CheckedParams {
  readonly uris: readonly string[];
  readonly summary: Summary;
}

/** Counts over all sheets of the workspace. */
export interface Summary {
  readonly sheets: number;
  readonly procedures: number;
  readonly errors: number;
  readonly warnings: number;
  readonly infos: number;
}

/** `quarrel/checking`, server to client: a check has begun. */
export type CheckingParams = { readonly uris: readonly string[] };

/** `quarrel/files/look`, `…/folder`, `…/read`, server to client: a server in a browser has no files of its own. */
export interface FileParams {
  readonly uri: string;
}
export interface LookAnswer {
  readonly kind: 'file' | 'folder' | 'missing';
}
export interface FolderAnswer {
  /** What stands in the folder; empty where there is none. */
  readonly entries: readonly { readonly name: string; readonly kind: 'file' | 'folder' }[];
}
export interface ReadAnswer {
  /** Missing where there is no such file, or no text in it. */
  readonly text?: string;
}

/** What the client tells the server as it starts (`initializationOptions`). */
export interface InitializationOptions {
  /** Whether the server has to ask the client for files. */
  readonly filesFromClient?: boolean;
}

/** The requests and notifications of ours, by name. */
export const methods = {
  timeline: 'quarrel/timeline',
  coverage: 'quarrel/coverage',
  holds: 'quarrel/holds',
  checklist: 'quarrel/checklist',
  checked: 'quarrel/checked',
  checking: 'quarrel/checking',
  look: 'quarrel/files/look',
  folder: 'quarrel/files/folder',
  read: 'quarrel/files/read',
} as const;

/** The client's commands that the server puts above procedures; each is given the sheet's address and the procedure's name. */
export const commands = {
  openTimeline: 'quarrel.openTimeline',
  openCoverage: 'quarrel.openCoverage',
  compile: 'quarrel.compile',
  showFindings: 'quarrel.showFindings',
} as const;
