import type { Act, Problem, Rule, Sheet, SourceRange } from '@quarrel/model';
import type { AstNode, LinkingError } from 'langium';
import * as ast from '../generated/ast.js';
import { clashes, clashesOfUsed } from '../names/clashes.js';
import type { SheetDocument } from '../names/imports.js';
import { unknownNames } from '../names/unknown.js';
import { unused } from '../names/unused.js';
import type { QuarrelServices } from '../services.js';
import { outOfPlace } from './out-of-place.js';
import { Places } from './places.js';
import { lowerProcedure } from './procedure.js';
import type { Reader } from './reader.js';
import { syntaxProblems, unreadableLines } from './syntax-problems.js';
import { type Declared, lowerDeclared, lowerSubjects, type Subjects, visibleVocabulary } from './vocabulary.js';

/** A sheet that has been parsed and linked, and what became of its `use` lines. */
export interface ReadSheet {
  readonly document: SheetDocument;
  readonly used: readonly { readonly use: ast.Use; readonly document: SheetDocument }[];
  /** What is wrong with its `use` lines. */
  readonly problems: readonly Problem[];
}

interface Desk {
  readonly sheet: ReadSheet;
  readonly places: Places;
  readonly syntax: readonly Problem[];
  readonly problems: Problem[];
  readonly reader: Reader;
}

/** Sheets that were read together as data, in the same order. */
export function lowerSheets(sheets: readonly ReadSheet[], services: QuarrelServices): readonly Sheet[] {
  const visible = services.names.VisibleNames;
  const subjects = new Map<AstNode, ReturnType<Subjects['get']> & object>();
  const desks = sheets.map((sheet) => deskFor(sheet, subjects, services));
  for (const { sheet, reader } of desks) {
    for (const [node, subject] of lowerSubjects(sheet.document.parseResult.value, reader)) subjects.set(node, subject);
  }
  const declared = new Map<SheetDocument, Declared>();
  for (const { sheet, reader } of desks) {
    declared.set(sheet.document, lowerDeclared(sheet.document.parseResult.value, reader));
  }
  const blind = blindSheets(desks, services);
  const referred = new Set(
    desks.flatMap(({ sheet }) => sheet.document.references.flatMap((one) => ('ref' in one ? (one.ref ?? []) : []))),
  );
  const placesOf = placesBySheet(desks);
  const lostNames = new Map(
    desks
      .filter(({ syntax }) => syntax.length > 0)
      .map(({ sheet }) => [sheet.document, namesLost(sheet.document, services)]),
  );
  const scopes = {
    namesAt: (error: LinkingError) =>
      services.references.ScopeProvider.getScope(error.info)
        .getAllElements()
        .map(({ name }) => name),
    typeAt: (error: LinkingError) => services.shared.AstReflection.getReferenceType(error.info),
  };
  return desks.map((desk) => {
    const { sheet, places, reader, problems, syntax } = desk;
    const { document } = sheet;
    const own = declared.get(document) ?? new Map();
    const root = document.parseResult.value;
    const nodes = root.declarations.filter(ast.isProcedure);
    const vocabulary = visibleVocabulary(document, visible, subjects, (one) => declared.get(one));
    const procedures = nodes.map((node) => lowerProcedure(node, vocabulary, reader));
    const lost = visible.sheetsFor(document).flatMap((one) => lostNames.get(one) ?? []);
    const unreadable = unreadableLines(document);
    const all = [
      ...sheet.problems,
      ...syntax,
      ...[
        ...outOfPlace(document, places, (text) => services.parser.Lexer.tokenize(text).tokens),
        ...problems,
        ...unknownNames(document, scopes, visible, places, blind.has(document)),
        ...clashes(document, visible, placesOf),
        // What a line refers to that could not be read may be lost with it.
        ...(syntax.length === 0 ? unused(document, referred, places) : []),
      ].filter(
        // On a line that could not be read whole, the rest may be misread; and what was skipped may have declared a name.
        (problem) =>
          !unreadable.has(problem.range.start.line) &&
          !(problem.rule === 'unknown-name' && lost.some((names) => names.has(problem.name))),
      ),
      ...clashesOfUsed(document, sheet.used, visible, placesOf),
    ];
    return {
      uri: places.uri,
      procedures,
      acts: [...own.values()].filter((one): one is Act => one.kind === 'act'),
      rules: [...own.values()].filter((one): one is Rule => one.kind === 'rule'),
      problems: all.sort((a, b) => comparePlaces(a.range, b.range)),
    };
  });
}

function deskFor(sheet: ReadSheet, subjects: Subjects, services: QuarrelServices): Desk {
  const { document } = sheet;
  const places = new Places(document.uri.toString());
  const syntax = syntaxProblems(document, places);
  const problems: Problem[] = [];
  const reader: Reader = {
    places,
    report: (problem) => problems.push(problem),
    complain: (message, range) => problems.push({ rule: 'syntax', message, range }),
    subjectOf: ({ subject }) => (subject?.ref === undefined ? undefined : subjects.get(subject.ref)),
    dimensionOf: (reading) => {
      const subject = subjects.get(reading);
      return subject?.kind === 'reading' ? subject.dimension : undefined;
    },
    isBroken: (node) => {
      const { start, end } = places.ofNode(node);
      return syntax.some(({ range }) => range.start.line >= start.line && range.start.line <= end.line);
    },
    subjectsOfKind: (kind) =>
      [...services.names.VisibleNames.namesFor(document, 'subject')].flatMap(([name, { node }]) =>
        (kind === 'reading' ? ast.isReading(node) : ast.isObservation(node)) ? [name] : [],
      ),
  };
  return { sheet, places, syntax, problems, reader };
}

/** Sheets that use, themselves or through others, a sheet that could not be read: names may come from there. */
function blindSheets(desks: readonly Desk[], services: QuarrelServices): ReadonlySet<SheetDocument> {
  const lacking = new Set(
    desks.filter(({ sheet }) => sheet.problems.length > 0).map(({ sheet: { document } }) => document),
  );
  const sees = (document: SheetDocument): boolean =>
    services.names.VisibleNames.sheetsFor(document).some((one) => lacking.has(one));
  return new Set(lacking.size === 0 ? [] : desks.map(({ sheet: { document } }) => document).filter(sees));
}

/** The words on lines that could not be read whole: one of them may have been meant to declare a name. */
function namesLost(document: SheetDocument, services: QuarrelServices): ReadonlySet<string> {
  const lines = unreadableLines(document);
  const { tokens } = services.parser.Lexer.tokenize(document.textDocument.getText());
  return new Set(tokens.filter(({ startLine = 0 }) => lines.has(startLine - 1)).map(({ image }) => image));
}

function placesBySheet(desks: readonly Desk[]): (document: SheetDocument) => Places {
  const known = new Map(desks.map(({ sheet, places }) => [sheet.document, places]));
  return (document) => known.get(document) ?? new Places(document.uri.toString());
}

function comparePlaces(a: SourceRange, b: SourceRange): number {
  return a.start.line - b.start.line || a.start.column - b.start.column;
}
