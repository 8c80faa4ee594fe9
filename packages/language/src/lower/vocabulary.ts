import type {
  Act,
  Assumptions,
  Condition,
  Hazard,
  Limits,
  Observation,
  Reading,
  Rule,
  State,
  Thing,
  Vocabulary,
} from '@quarrel/model';
import type { AstNode } from 'langium';
import * as ast from '../generated/ast.js';
import { declaredIn } from '../names/groups.js';
import type { SheetDocument } from '../names/imports.js';
import type { VisibleNames } from '../names/visible.js';
import { lowerAct, lowerHazard, lowerLimits } from './acts.js';
import { lowerAssume } from './assumptions.js';
import type { Reader } from './reader.js';
import { lowerRule } from './rules.js';
import { lowerObservation, lowerReading, lowerState } from './subjects.js';
import { lowerThing } from './things.js';

/** Conditions and states by the declaration they come from. Tests lean on them, so they are lowered before anything else. */
export type Subjects = ReadonlyMap<AstNode, Condition | State>;

/** What a sheet declares beside conditions and states, by the declaration it comes from. */
export type Declared = ReadonlyMap<AstNode, Vocable>;

export type Vocable = Act | Hazard | Rule | Thing | Limits | Assumptions;

export function lowerSubjects(sheet: ast.Sheet, reader: Reader): Subjects {
  const subjects = new Map<AstNode, Condition | State>();
  for (const node of sheet.declarations) {
    const lowered = lowerSubject(node, reader);
    if (lowered !== undefined) subjects.set(node, lowered);
  }
  return subjects;
}

function lowerSubject(node: ast.Declaration, reader: Reader): Condition | State | undefined {
  switch (node.$type) {
    case 'Observation':
      return lowerObservation(node, reader);
    case 'Reading':
      return lowerReading(node, reader);
    case 'State':
      return lowerState(node, reader);
    default:
      return undefined;
  }
}

export function lowerDeclared(sheet: ast.Sheet, reader: Reader): Declared {
  const declared = new Map<AstNode, Vocable>();
  for (const node of sheet.declarations) {
    const lowered = lowerVocable(node, reader);
    if (lowered !== undefined) declared.set(node, lowered);
  }
  return declared;
}

function lowerVocable(node: ast.Declaration, reader: Reader): Vocable | undefined {
  switch (node.$type) {
    case 'Act':
      return lowerAct(node, reader);
    case 'Hazard':
      return lowerHazard(node, reader);
    case 'Rule':
      return lowerRule(node, reader);
    case 'Thing':
      return lowerThing(node, reader);
    case 'Limits':
      return lowerLimits(node, reader);
    case 'Assume':
      return lowerAssume(node, reader);
    default:
      return undefined;
  }
}

/**
 * Everything that a sheet can speak of: of used sheets first, depth first in the order of `use`, then its own. Of two that clash
 * the first counts, as it does for the linker.
 */
export function visibleVocabulary(
  document: SheetDocument,
  visible: VisibleNames,
  subjectOf: (node: AstNode) => Condition | State | undefined,
  declaredOf: (sheet: SheetDocument) => Declared,
): Vocabulary {
  const observations: Observation[] = [];
  const readings: Reading[] = [];
  const states: State[] = [];
  const hazards: Hazard[] = [];
  const acts: Act[] = [];
  const rules: Rule[] = [];
  const things: Thing[] = [];
  const limits: Limits[] = [];
  const assumptions: Assumptions[] = [];
  for (const sheet of visible.sheetsFor(document)) {
    const declared = declaredOf(sheet);
    for (const node of sheet.parseResult.value.declarations.filter(ast.isAssume)) {
      const lowered = declared.get(node);
      if (lowered?.kind === 'assumptions') assumptions.push(lowered);
    }
    for (const { group, node } of declaredIn(sheet.parseResult.value)) {
      if (node.name === undefined || visible.namesFor(document, group).get(node.name)?.node !== node) continue;
      const lowered = subjectOf(node) ?? declared.get(node);
      if (lowered === undefined) continue;
      switch (lowered.kind) {
        case 'observation':
          observations.push(lowered);
          break;
        case 'reading':
          readings.push(lowered);
          break;
        case 'state':
          states.push(lowered);
          break;
        case 'hazard':
          hazards.push(lowered);
          break;
        case 'act':
          acts.push(lowered);
          break;
        case 'rule':
          rules.push(lowered);
          break;
        case 'limits':
          limits.push(lowered);
          break;
        case 'assumptions':
          break; // They have no name; they are gathered above.
        default:
          things.push(lowered);
      }
    }
  }
  return { observations, readings, states, hazards, acts, rules, things, limits, assumptions };
}
