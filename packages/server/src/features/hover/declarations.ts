import { testInWords } from '@quarrel/checks';
import { declaredIn, isSheetDocument, type SheetDocument, shippedName } from '@quarrel/language';
import {
  type Act,
  type Assumptions,
  type Condition,
  type Effect,
  type Hazard,
  type Limits,
  type Need,
  type Observation,
  type State,
  type Step,
  unitNamed,
  type Value,
} from '@quarrel/model';
import { type AstNode, AstUtils } from 'langium';
import { pageUri } from '../../rule-pages.js';
import type { LanguageServices } from '../../services.js';
import type { Known } from '../runs.js';
import { capital, code, either, link, linkTo, list, page, paragraphs, plain } from './markdown.js';
import { conversionsOf, converted, spanWords } from './quantity.js';

/** `**Cure the resin** · act `cure``: what people call it, what it is, its name. */
export function heading(label: string, what: string, name?: string): string {
  return `**${plain(label)}** · ${what}${name === undefined ? '' : ` ${code(name)}`}`;
}

export function actHover(act: Act, near: readonly Known[], hazards: (name: string) => Hazard | undefined): string {
  const raised = act.raises.map((name) => {
    const hazard = hazards(name);
    return hazard === undefined ? code(name) : `${signalOf(hazard)} ${plain(hazard.label)}`;
  });
  return page([
    heading(act.label, 'act', act.name),
    ...paragraphs(act.documentation),
    list('Needs', act.needs.map(needWords)),
    sentence('Makes', act.makes.map(({ state, value }) => code(`${state} ${value}`)).join(', ')),
    sentence('Raises', raised.join(', ')),
    near.length === 0 ? undefined : stepsWords(near, doesAct(act.name), 'Done in', 'No step here does it.'),
    sourceWords(act.source),
  ]);
}

function needWords({ test, rule, because }: Need): string {
  const reason = because === undefined ? '' : `: ${plain(because)}`;
  return `${code(testInWords(test))}${rule === undefined ? '' : ` (${ruleLink(rule)})`}${reason}`;
}

/** A rule by its name, which leads to its page where there is one. */
export function ruleLink(rule: string): string {
  const uri = pageUri(rule);
  return uri === undefined ? code(rule) : link(rule, uri);
}

export function conditionHover(condition: Condition, near: readonly Known[]): string {
  return page([
    heading(condition.label, condition.kind, condition.name),
    condition.kind === 'reading'
      ? [`${condition.low.text} to ${condition.high.text}`, ...rangeConversions(condition)].map(plain).join(' · ')
      : condition.values.map(({ name, label }) => `- ${code(name)}${labelBehind(name, label)}`).join('\n'),
    ...paragraphs(condition.documentation),
    knownFrom(condition, near),
  ]);
}

function knownFrom({ name }: Condition, near: readonly Known[]): string | undefined {
  const learns = ({ effects }: Step): boolean =>
    effects.some((effect) => (effect.kind === 'observe' || effect.kind === 'read') && effect.condition === name);
  return near.length === 0 ? undefined : stepsWords(near, learns, 'Becomes known in', 'No step here finds it out.');
}

/** Both ends in the other units, unit by unit. */
function rangeConversions({ low, high }: Extract<Condition, { kind: 'reading' }>): readonly string[] {
  return conversionsOf(high).flatMap((top) => {
    const unit = unitNamed(top.unit);
    if (unit === undefined) return [];
    const bottom = converted(low.si, unit);
    return [`${bottom.isRounded || top.isRounded ? '≈ ' : ''}${bottom.text} to ${top.text}`];
  });
}

/** One value of an observation or a state, and the others beside it. */
export function valueHover(
  { name, label }: Value,
  owner: Observation | State,
  acts: readonly Act[],
  near: readonly Known[],
): string {
  const others = owner.values.filter((one) => one.name !== name).map((one) => code(one.name));
  return page([
    heading(label, `value of ${code(owner.name)}`, name),
    owner.kind === 'state' ? capital(originsOf(owner, name, acts, near).join('; ')) : undefined,
    sentence('Other values:', others.join(', ')),
    owner.kind === 'observation' ? knownFrom(owner, near) : undefined,
  ]);
}

function labelBehind(name: string, label: string): string {
  return label === name ? '' : ` ${plain(label)}`;
}

export function stateHover(state: State, acts: readonly Act[], near: readonly Known[]): string {
  const lines = state.values.map(({ name, label }) => {
    const told = originsOf(state, name, acts, near);
    return `- ${code(name)}${labelBehind(name, label)}${told.length === 0 ? '' : `: ${told.join('; ')}`}`;
  });
  return page([heading(state.label, 'state', state.name), lines.join('\n'), ...paragraphs(state.documentation)]);
}

/** Where a value of a state comes from: the start, acts, what is seen. */
function originsOf(state: State, value: string, acts: readonly Act[], near: readonly Known[]): readonly string[] {
  const makers = acts
    .filter(({ makes }) => makes.some((one) => one.state === state.name && one.value === value))
    .map((act) => code(act.name));
  const seen = near.flatMap((known) =>
    known.steps.filter((step) => confirms(step, state.name, value)).map(({ text, range }) => linkTo(text, range)),
  );
  return [
    ...(state.values[0]?.name === value ? ['at the start'] : []),
    ...(makers.length === 0 ? [] : [`made by ${either(makers)}`]),
    ...(seen.length === 0 ? [] : [`confirmed in ${seen.join(', ')}`]),
  ];
}

function confirms({ effects }: Step, state: string, value: string): boolean {
  return effects.some(
    (effect) => effect.kind === 'check' && effect.confirms?.state === state && effect.confirms.value === value,
  );
}

export function hazardHover(hazard: Hazard, near: readonly Known[]): string {
  const announces = ({ cautions }: Step): boolean =>
    cautions.some((caution) => caution.kind === 'hazard' && caution.hazard === hazard.name);
  return page([
    `**${signalOf(hazard)}** ${heading(hazard.label, 'hazard', hazard.name)}`,
    hazard.measures.map(({ kind, text }) => `- ${kind === 'wear' ? 'Wear ' : ''}${plain(text)}`).join('\n'),
    ...paragraphs(hazard.documentation),
    near.length === 0 ? undefined : stepsWords(near, announces, 'Announced in', 'No step here announces it.'),
    sourceWords(hazard.source),
  ]);
}

function signalOf({ signal }: Hazard): string {
  return signal.toUpperCase();
}

export function limitsHover(limits: Limits): string {
  const lines = limits.allowances.map(({ test, when, because, source }) => {
    const where = when === undefined ? '' : ` when ${code(testInWords(when))}`;
    const why = because === undefined ? '' : `: ${plain(because)}`;
    return `${code(testInWords(test))}${where}${why}${source === undefined ? '' : ` (${plain(source)})`}`;
  });
  return page([
    heading(limits.label, 'limits', limits.name),
    list('Allows', lines),
    ...paragraphs(limits.documentation),
  ]);
}

/** What estimates of a topic take for granted, line by line. */
export function assumptionsHover({ topic, label, acts, lines }: Assumptions): string {
  const told = lines.map(({ property, amount, when, because, source }) => {
    const value = amount.kind === 'reading' ? code(amount.name) : plain(spanWords(amount.span));
    const where = when === undefined ? '' : ` when ${code(testInWords(when))}`;
    const why = because === undefined ? '' : `: ${plain(because)}`;
    return `${code(property)} ${value}${where}${why}${source === undefined ? '' : ` (${plain(source)})`}`;
  });
  return page([
    heading(label, 'assumptions', topic),
    list('Taken for granted', told),
    sentence('During', acts.map(code).join(', ')),
  ]);
}

export function sourceWords(source: string | undefined): string | undefined {
  return source === undefined ? undefined : `Source: ${plain(source)}`;
}

export function sentence(word: string, rest: string): string | undefined {
  return rest === '' ? undefined : `${word} ${rest}`;
}

/** How many steps are listed before the rest is only counted. */
const mostSteps = 6;

/** The steps of one kind as links, in the order of the work. */
export function stepsWords(
  near: readonly Known[],
  isSought: (step: Step) => boolean,
  word: string,
  none: string,
): string {
  const found = near.flatMap(({ steps }) => steps.filter(isSought));
  if (found.length === 0) return none;
  const links = found.slice(0, mostSteps).map(({ text, range }) => linkTo(text, range));
  const more = found.length - links.length;
  return `${word}: ${links.join(' · ')}${more > 0 ? ` · and ${more} more` : ''}`;
}

function doesAct(name: string): (step: Step) => boolean {
  const isAct = (effect: Effect): boolean => effect.kind === 'act' && effect.act === name;
  return ({ effects }) => effects.some(isAct);
}

/** The acts that a reader of a sheet can have in mind: those it sees, and for what ships those that ship as well. */
export function actsSeenFrom(document: SheetDocument, node: AstNode, services: LanguageServices): readonly Act[] {
  const home = AstUtils.findRootNode(node).$document;
  const { VisibleNames } = services.names;
  const sheets = new Set(VisibleNames.sheetsFor(document));
  if (home !== undefined && isSheetDocument(home)) {
    for (const user of services.shared.workspace.IndexManager.usersOf(home)) {
      if (shippedName(user.uri.toString()) !== undefined) sheets.add(user);
    }
  }
  return [...sheets].flatMap((sheet) =>
    [...declaredIn(sheet.parseResult.value)].flatMap(({ node: declaration }) => {
      const found = services.meaning.Lowering.declaredBy(sheet, declaration);
      return found?.kind === 'act' ? [found] : [];
    }),
  );
}
