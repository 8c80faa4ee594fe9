import { ast, isSheetDocument, type SheetDocument } from '@quarrel/language';
import type { Hazard } from '@quarrel/model';
import { type AstNode, AstUtils, type LangiumDocument, type LeafCstNode } from 'langium';
import type { Hover, HoverParams } from 'vscode-languageserver';
import { contains, positionOf, rangeOf } from '../../check/places.js';
import type { LanguageServices } from '../../services.js';
import { declarationsAt } from '../cursor.js';
import { knownAround, knownNear } from '../runs.js';
import {
  actHover,
  actsSeenFrom,
  assumptionsHover,
  conditionHover,
  hazardHover,
  heading,
  limitsHover,
  stateHover,
  valueHover,
} from './declarations.js';
import { caseHover, repeatHover, stageHover } from './flow.js';
import { holdHover } from './hold.js';
import { block, page } from './markdown.js';
import { coversWords, procedureHover } from './procedure.js';
import { quantityHover } from './quantity.js';
import { catalogueHover, needHover, ruleHover, waivedWords } from './rule.js';
import { useHover } from './sheet.js';
import { stepHover } from './step.js';
import { choiceHover, offerHover, propertyHover, thingHover } from './thing.js';
import { wordHelp } from './words.js';

/** Where something is asked about: the sheet, the node at the cursor. */
interface Asked {
  readonly document: SheetDocument;
  readonly at: AstNode;
  readonly services: LanguageServices;
}

/** What is known of the word, name, text or quantity at the cursor. */
export function hover(
  document: LangiumDocument,
  { position }: HoverParams,
  services: LanguageServices,
): Hover | undefined {
  if (!isSheetDocument(document)) return undefined;
  const found = declarationsAt(document, position, services);
  if (found === undefined) return undefined;
  const { leaf, declarations } = found;
  const asked = { document, at: leaf.astNode, services };
  const { astNode: at } = leaf;
  const value =
    declarations.length === 0
      ? page([placeHover(leaf, asked)])
      : page([
          ...declarations.map((node) => nameHover(node, asked)),
          ast.isWaive(at) ? waived(at, services) : undefined,
        ]);
  return value === '' ? undefined : { contents: { kind: 'markdown', value }, range: leaf.range };
}

/** What a declaration means, for someone who asks from a place that speaks of it. */
function nameHover(node: AstNode, asked: Asked): string | undefined {
  const { document, at, services } = asked;
  if (ast.isValue(node)) return valueMeaning(node, asked);
  if (ast.isStep(node)) {
    const known = knownAround(node, services);
    const step = known?.partOf(node);
    // What a variation yields is no procedure that was run.
    if (known === undefined || step?.kind !== 'step') return heading(node.text ?? node.name ?? '', 'step', node.name);
    return stepHover(step, known);
  }
  if (ast.isChoose(node)) {
    const known = knownAround(node, services);
    const choice = known?.procedure.choices.find(({ name }) => name === node.name);
    return known === undefined || choice === undefined ? undefined : choiceHover(choice, known);
  }
  if (ast.isProcedure(node)) {
    const known = knownAround(node, services);
    return known === undefined ? undefined : procedureHover(known);
  }
  if (ast.isNeed(node)) {
    const act = meaningOf(node.$container, services);
    const need = act?.kind === 'act' ? act.needs.find(({ rule }) => rule === node.name) : undefined;
    return act?.kind === 'act' && need?.rule !== undefined ? needHover({ ...need, rule: need.rule }, act) : undefined;
  }
  if (ast.isExample(node) || ast.isVariation(node)) {
    return heading(node.label ?? node.name ?? '', `${node.$type.toLowerCase()} of a procedure`, node.name);
  }
  const meaning = meaningOf(node, services);
  if (meaning === undefined) return undefined;
  const near = knownNear(at, document, services);
  switch (meaning.kind) {
    case 'act':
      return actHover(meaning, near, (name) => hazardOf(node, name, services));
    case 'observation':
    case 'reading':
      return conditionHover(meaning, near);
    case 'state':
      return stateHover(meaning, actsSeenFrom(document, node, services), near);
    case 'hazard':
      return hazardHover(meaning, near);
    case 'rule':
      return ruleHover(meaning);
    case 'limits':
      return limitsHover(meaning);
    case 'assumptions':
      return undefined;
    default:
      return thingHover(meaning, near);
  }
}

function valueMeaning(node: ast.Value, { document, at, services }: Asked): string | undefined {
  const owner = meaningOf(node.$container, services);
  if (owner?.kind !== 'observation' && owner?.kind !== 'state') return undefined;
  const value = owner.values.find(({ name }) => name === node.name);
  if (value === undefined) return undefined;
  return valueHover(value, owner, actsSeenFrom(document, node, services), knownNear(at, document, services));
}

/** The hazard that an act raises, as the sheet of the act knows it. */
function hazardOf(act: AstNode, name: string, services: LanguageServices): Hazard | undefined {
  if (!ast.isAct(act)) return undefined;
  const node = act.raises.find((one) => one.$refText === name)?.ref;
  const meaning = node === undefined ? undefined : meaningOf(node, services);
  return meaning?.kind === 'hazard' ? meaning : undefined;
}

function meaningOf(node: AstNode, { meaning }: LanguageServices) {
  const home = AstUtils.findRootNode(node).$document;
  return home !== undefined && isSheetDocument(home) ? meaning.Lowering.declaredBy(home, node) : undefined;
}

/** The findings that a waiver takes away, which nobody sees any more. */
function waived(waive: ast.Waive, services: LanguageServices): string | undefined {
  const step = ast.isStep(waive.$container) ? waive.$container : undefined;
  const known = knownAround(waive, services);
  const inStep = step === undefined ? undefined : known?.partOf(step)?.whole;
  return waivedWords(
    (known?.waived ?? []).filter(
      ({ finding, because }) =>
        finding.rule === waive.rule?.$refText &&
        because === waive.because &&
        (inStep === undefined || contains(rangeOf(inStep), positionOf(finding.range.start))),
    ),
  );
}

/** What stands at a place that names nothing. */
function placeHover(leaf: LeafCstNode, asked: Asked): string | undefined {
  const { at, document, services } = asked;
  if (ast.isAmount(at)) {
    return page([ast.isQuantity(at.$container) ? quantityHover(at.$container) : undefined, aroundHold(at, services)]);
  }
  if (ast.isProperty(at) && leaf.text === at.property) return propertyHover(at);
  if (ast.isAssume(at) && leaf.text !== 'assume') {
    const assumed = meaningOf(at, services);
    return assumed?.kind === 'assumptions' ? assumptionsHover(assumed) : undefined;
  }
  if (ast.isUse(at) && leaf.text !== 'use') return useHover(at, document, services);
  if (ast.isWaive(at) && leaf.text === at.rule?.$refText)
    return page([catalogueHover(leaf.text), waived(at, services)]);
  const isKeyword = /^[a-z]+$/.test(leaf.text) && leaf.tokenType.name === leaf.text;
  if (isKeyword) return page([meaningHere(leaf, asked), aroundHold(at, services), helpHover(leaf.text)]);
  return leaf.tokenType.name === 'STRING' ? meaningHere(leaf, asked) : undefined;
}

/** What the part of a procedure means whose first word, or whose text, is at the cursor. */
function meaningHere(leaf: LeafCstNode, { at, services }: Asked): string | undefined {
  const known = knownAround(at, services);
  if (known === undefined) return undefined;
  if (ast.isCovers(at)) return coversWords(known);
  if (ast.isChoose(at)) return nameOfChoice(at, leaf, known);
  const offer = offerOf(at);
  if (offer !== undefined) {
    const choice = known.procedure.choices.find(({ name }) => name === offer.choose.name);
    return choice === undefined ? undefined : offerHover(choice, offer.index, known);
  }
  if (ast.isProcedure(at) && (leaf.text === 'procedure' || leaf.text === leafTextOf(at, 'label')))
    return procedureHover(known);
  const branch = branchOf(at);
  if (branch !== undefined) {
    const part = known.partOf(branch.when);
    return part?.kind === 'when' ? caseHover(part, branch.index, known) : undefined;
  }
  const part = known.partOf(at);
  switch (part?.kind) {
    case 'step':
      return ast.isStep(at) ? stepHover(part, known) : undefined;
    case 'stage':
      return ast.isStage(at) ? stageHover(part, known) : undefined;
    case 'repeat':
      return ast.isRepeat(at) ? repeatHover(part, known) : undefined;
    default:
      return undefined;
  }
}

/** What is estimated of the hold of a step in which a word or a quantity stands. */
function aroundHold(at: AstNode, services: LanguageServices): string | undefined {
  const hold = AstUtils.getContainerOfType(at, ast.isHold);
  const known = hold === undefined ? undefined : knownAround(hold, services);
  const step = hold === undefined ? undefined : known?.partOf(hold.$container);
  return known === undefined || step?.kind !== 'step' ? undefined : holdHover(step, known);
}

function nameOfChoice(
  at: ast.Choose,
  leaf: LeafCstNode,
  known: NonNullable<ReturnType<typeof knownAround>>,
): string | undefined {
  const choice = known.procedure.choices.find(({ name }) => name === at.name);
  const isHead = leaf.text === 'choose' || leaf.tokenType.name === 'STRING';
  return choice === undefined || !isHead ? undefined : choiceHover(choice, known);
}

/** The case of a choice that a word belongs to. */
function offerOf(at: AstNode): { readonly choose: ast.Choose; readonly index: number | 'otherwise' } | undefined {
  const node = aroundTests(at);
  if (ast.isChooseOtherwise(node)) return { choose: node.$container, index: 'otherwise' };
  return ast.isChooseCase(node) ? { choose: node.$container, index: node.$container.cases.indexOf(node) } : undefined;
}

/** What a test belongs to; a node that is no test itself. */
function aroundTests(at: AstNode): AstNode | undefined {
  let node: AstNode | undefined = at;
  while (node !== undefined && ast.isTest(node)) node = node.$container;
  return node;
}

function leafTextOf(node: ast.Procedure, property: 'label'): string | undefined {
  const text = node[property];
  return text === undefined ? undefined : `"${text}"`;
}

/** The case of a `when` that a word belongs to: its own words, and those of its test. */
function branchOf(at: AstNode): { readonly when: ast.When; readonly index: number | 'otherwise' } | undefined {
  const node = aroundTests(at);
  const when = ast.isWhen(node) ? node : node?.$container;
  if (!ast.isWhen(when)) return undefined;
  const branches = [when.first, ...when.others].filter((one) => one !== undefined);
  const isLast = (one: ast.WhenCase | ast.Otherwise): boolean =>
    ast.isOtherwise(one) && one.test === undefined && !one.asks;
  const branch = ast.isWhen(node) ? when.first : branches.find((one) => one === node);
  if (branch === undefined) return undefined;
  if (isLast(branch)) return { when, index: 'otherwise' };
  return { when, index: branches.filter((one) => !isLast(one)).indexOf(branch) };
}

function helpHover(word: string): string | undefined {
  const help = wordHelp(word);
  return help === undefined ? undefined : page([help.says, block(help.example)]);
}
