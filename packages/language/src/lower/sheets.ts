import type { Act, Condition, Problem, Rule, Sheet, SourceRange, State } from '@quarrel/model';
import { type AstNode, AstUtils, type LinkingError } from 'langium';
import * as ast from '../generated/ast.js';
import { clashes, clashesOfUsed } from '../names/clashes.js';
import { isSheetDocument, type SheetDocument, type Uses } from '../names/imports.js';
import { unknownNames } from '../names/unknown.js';
import { unused } from '../names/unused.js';
import type { QuarrelServices } from '../services.js';
import { outOfPlace } from './out-of-place.js';
import { Places } from './places.js';
import { lowerProcedure } from './procedure.js';
import type { Reader } from './reader.js';
import { syntaxProblems, unreadableLines } from './syntax-problems.js';
import {
  type Declared,
  lowerDeclared,
  lowerSubjects,
  type Subjects,
  type Vocable,
  visibleVocabulary,
} from './vocabulary.js';

/** Makes data of sheets that have been parsed and linked, one by one, and keeps it until it is told to forget. */
export interface Lowering {
  /**
   * The sheet as data; the same object as long as nothing of it changed. `isReferred` says whether some sheet refers to a
   * declaration of this one.
   */
  lower(document: SheetDocument, isReferred: (node: AstNode) => boolean): Sheet;
  /** A condition, state, act and so on as data, by its declaration, whether or not a procedure speaks of it. */
  declaredBy(document: SheetDocument, node: AstNode): Condition | State | Vocable | undefined;
  /** Forgets what was made of a sheet that has been parsed or linked anew. */
  forget(document: SheetDocument): void;
}

/** Sheets that were read together as data, in the same order. */
export function lowerSheets(documents: readonly SheetDocument[], services: QuarrelServices): readonly Sheet[] {
  const lowering = createLowering(services);
  const referred = new Set(documents.flatMap((document) => [...nodesReferredIn(document)]));
  return documents.map((document) => lowering.lower(document, (node) => referred.has(node)));
}

/** Everything that a sheet refers to. */
export function* nodesReferredIn(document: SheetDocument): Generator<AstNode> {
  for (const reference of document.references) {
    if ('ref' in reference && reference.ref !== undefined) yield reference.ref;
  }
}

export function createLowering(services: QuarrelServices): Lowering {
  const desks = new WeakMap<SheetDocument, Desk>();
  const deskOf = (document: SheetDocument): Desk => {
    const known = desks.get(document);
    if (known !== undefined) return known;
    const desk = new Desk(document, deskOf, services);
    desks.set(document, desk);
    return desk;
  };
  return {
    lower: (document, isReferred) => deskOf(document).sheet(isReferred),
    declaredBy: (document, node) => {
      const desk = deskOf(document);
      return desk.subjects.get(node) ?? desk.declared.get(node);
    },
    forget: (document) => {
      desks.delete(document);
    },
  };
}

/**
 * What becomes of one sheet, step by step, each when it is first asked for: its conditions and states, what it declares with
 * their help, its procedures. Sheets may use each other in a circle; the steps of all of them do not.
 */
class Desk {
  readonly places: Places;
  readonly uses: Uses;
  /** Conditions and states by their declarations. */
  readonly subjects: Subjects;
  readonly #syntax: readonly Problem[];
  readonly #problems: Problem[] = [];
  readonly #reader: Reader;
  #declared: Declared | undefined;
  #namesLost: ReadonlySet<string> | undefined;
  #lowered: Sheet | undefined;
  #complete: { readonly unused: readonly Problem[]; readonly sheet: Sheet } | undefined;

  constructor(
    readonly document: SheetDocument,
    readonly deskOf: (document: SheetDocument) => Desk,
    readonly services: QuarrelServices,
  ) {
    this.places = new Places(document.uri.toString());
    this.uses = services.names.Imports.usesOf(document);
    this.#syntax = syntaxProblems(document, this.places);
    this.#reader = this.#createReader();
    this.subjects = lowerSubjects(document.parseResult.value, this.#reader);
  }

  /** The other declarations, which speak of conditions and states of all sheets that this one sees. */
  get declared(): Declared {
    this.#declared ??= lowerDeclared(this.document.parseResult.value, this.#reader);
    return this.#declared;
  }

  /** The words on lines that could not be read whole: one of them may have been meant to declare a name. */
  get namesLost(): ReadonlySet<string> {
    this.#namesLost ??= this.#syntax.length === 0 ? new Set() : namesLostIn(this.document, this.services);
    return this.#namesLost;
  }

  sheet(isReferred: (node: AstNode) => boolean): Sheet {
    this.#lowered ??= this.#lower();
    // What a line refers to that could not be read may be lost with it.
    const idle = this.#syntax.length === 0 ? [...unused(this.document, isReferred, this.places)] : [];
    const known = this.#complete;
    if (known !== undefined && sameNames(known.unused, idle)) return known.sheet;
    const sheet = { ...this.#lowered, problems: inPlace([...this.#lowered.problems, ...this.#readable(idle)]) };
    this.#complete = { unused: idle, sheet };
    return sheet;
  }

  #lower(): Sheet {
    const { document, places, services, declared } = this;
    const visible = services.names.VisibleNames;
    const placesOf = (one: SheetDocument): Places => this.deskOf(one).places;
    const vocabulary = visibleVocabulary(
      document,
      visible,
      (node) => this.#subjectOf(node),
      (one) => this.deskOf(one).declared,
    );
    const procedures = document.parseResult.value.declarations
      .filter(ast.isProcedure)
      .map((node) => lowerProcedure(node, vocabulary, this.#reader));
    const problems = [
      ...this.uses.problems,
      ...this.#syntax,
      ...this.#readable([
        ...outOfPlace(document, places, (text) => services.parser.Lexer.tokenize(text).tokens),
        ...this.#problems,
        ...unknownNames(document, scopesOf(services), visible, places, this.#isBlind()),
        ...clashes(document, visible, placesOf),
      ]),
      ...clashesOfUsed(document, this.uses.used, visible, placesOf),
    ];
    const own = [...declared.values()];
    return {
      uri: places.uri,
      procedures,
      acts: own.filter((one): one is Act => one.kind === 'act'),
      rules: own.filter((one): one is Rule => one.kind === 'rule'),
      problems: inPlace(problems),
    };
  }

  /** Without what stands on lines that could not be read whole, as it may be misread; and what was skipped may have declared a name. */
  #readable(problems: readonly Problem[]): readonly Problem[] {
    const unreadable = unreadableLines(this.document);
    const lost = this.#visible().map((one) => this.deskOf(one).namesLost);
    return problems.filter(
      (problem) =>
        !unreadable.has(problem.range.start.line) &&
        !(problem.rule === 'unknown-name' && lost.some((names) => names.has(problem.name))),
    );
  }

  /** Whether a sheet that this one uses, itself or through others, could not be read: names may come from there. */
  #isBlind(): boolean {
    return this.#visible().some((one) => this.deskOf(one).uses.problems.length > 0);
  }

  #visible(): readonly SheetDocument[] {
    return this.services.names.VisibleNames.sheetsFor(this.document);
  }

  #subjectOf(node: AstNode): ReturnType<Subjects['get']> {
    const document = AstUtils.findRootNode(node).$document;
    return document !== undefined && isSheetDocument(document) ? this.deskOf(document).subjects.get(node) : undefined;
  }

  #createReader(): Reader {
    const { document, places, services } = this;
    return {
      places,
      report: (problem) => this.#problems.push(problem),
      complain: (message, range) => this.#problems.push({ rule: 'syntax', message, range }),
      subjectOf: ({ subject }) => (subject?.ref === undefined ? undefined : this.#subjectOf(subject.ref)),
      dimensionOf: (reading) => {
        const subject = this.#subjectOf(reading);
        return subject?.kind === 'reading' ? subject.dimension : undefined;
      },
      isBroken: (node) => {
        const { start, end } = places.ofNode(node);
        return this.#syntax.some(({ range }) => range.start.line >= start.line && range.start.line <= end.line);
      },
      subjectsOfKind: (kind) =>
        [...services.names.VisibleNames.namesFor(document, 'subject')].flatMap(([name, { node }]) =>
          (kind === 'reading' ? ast.isReading(node) : ast.isObservation(node)) ? [name] : [],
        ),
    };
  }
}

function scopesOf(services: QuarrelServices) {
  return {
    namesAt: (error: LinkingError) =>
      services.references.ScopeProvider.getScope(error.info)
        .getAllElements()
        .map(({ name }) => name),
    typeAt: (error: LinkingError) => services.shared.AstReflection.getReferenceType(error.info),
  };
}

function namesLostIn(document: SheetDocument, services: QuarrelServices): ReadonlySet<string> {
  const lines = unreadableLines(document);
  const { tokens } = services.parser.Lexer.tokenize(document.textDocument.getText());
  return new Set(tokens.filter(({ startLine = 0 }) => lines.has(startLine - 1)).map(({ image }) => image));
}

function sameNames(some: readonly Problem[], others: readonly Problem[]): boolean {
  return some.length === others.length && some.every(({ range }, at) => comparePlaces(range, others[at]?.range) === 0);
}

function inPlace(problems: readonly Problem[]): readonly Problem[] {
  return [...problems].sort((a, b) => comparePlaces(a.range, b.range));
}

function comparePlaces(a: SourceRange, b: SourceRange | undefined): number {
  return b === undefined ? -1 : a.start.line - b.start.line || a.start.column - b.start.column;
}
