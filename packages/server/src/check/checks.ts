import { type CheckReport, checkSheets, Memory, type ProcedureReport } from '@quarrel/checks';
import type { SheetDocument } from '@quarrel/language';
import type { Procedure, Sheet } from '@quarrel/model';
import type { LanguageServices } from '../services.js';

/**
 * What the sheets of the workspace mean and what is wrong with them. Computed when it is asked for, kept for as long as the
 * sheet and what it uses stay as they are; a procedure that means what it meant costs no run even where its lines moved.
 */
export class Checks {
  readonly #services: LanguageServices;
  readonly #memory = new Memory();
  readonly #reports = new WeakMap<Sheet, CheckReport>();
  readonly #latest = new WeakMap<SheetDocument, CheckReport>();

  constructor(services: LanguageServices) {
    this.#services = services;
  }

  /** A sheet as data. It has to be linked. */
  sheetOf(document: SheetDocument): Sheet {
    const { meaning, shared } = this.#services;
    const { IndexManager } = shared.workspace;
    const users = IndexManager.usersOf(document).map((user) => IndexManager.referredIn(user));
    return meaning.Lowering.lower(document, (node) => users.some((referred) => referred.has(node)));
  }

  /** What is found in a sheet. It has to be linked. */
  of(document: SheetDocument): CheckReport {
    const sheet = this.sheetOf(document);
    const known = this.#reports.get(sheet);
    if (known !== undefined) return known;
    const report = checkSheets([sheet], { memory: this.#memory });
    this.#reports.set(sheet, report);
    this.#latest.set(document, report);
    return report;
  }

  /** What was found in a sheet last, maybe a few edits ago, for whoever cannot wait; it is checked if it never was before. */
  latest(document: SheetDocument): CheckReport {
    return this.#latest.get(document) ?? this.of(document);
  }

  /** What is known of one procedure of a sheet; the first where two have one name. */
  ofProcedure(document: SheetDocument, name: string): ProcedureReport | undefined {
    return this.of(document).procedures.find(({ procedure }) => procedure.name === name);
  }

  /** The procedure around a line (from 0) of a sheet, or else the last one that begins above it, or else its first. */
  procedureAt(document: SheetDocument, line: number): Procedure | undefined {
    const { procedures } = this.sheetOf(document);
    return procedures.findLast(({ range }) => range.start.line <= line) ?? procedures[0];
  }
}
