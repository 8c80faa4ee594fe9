import { methods, type ProcedureAddress, type TimelineAnswer, type TimelineParams } from '@quarrel/server/protocol';
import { l10n, type QuickPickItem, window } from 'vscode';
import type { BaseLanguageClient } from 'vscode-languageclient';
import { ask } from './start.js';

type Condition = Extract<TimelineAnswer, { readonly kind: 'timeline' }>['timeline']['conditions'][number];

/**
 * Asks what the job is like: tests of the language that all hold, none for every situation. Nothing where the user turned back.
 */
export async function askSituation(
  client: BaseLanguageClient,
  sheet: ProcedureAddress,
): Promise<readonly string[] | undefined> {
  const conditions = await conditionsOf(client, sheet);
  const values = new Map<string, Value>();
  while (conditions.length > 0) {
    const next = await pickCondition(conditions, values);
    if (next === undefined) return undefined;
    if (next === 'done') break;
    const value = await askValue(next);
    if (value === 'any') values.delete(next.name);
    else if (value !== undefined) values.set(next.name, value);
  }
  return [...values].map(([name, { test }]) => `${name} ${test}`);
}

/** A value of a condition: how people read it, and the words that follow the condition's name in a test. */
interface Value {
  readonly label: string;
  readonly test: string;
}

async function conditionsOf(client: BaseLanguageClient, sheet: ProcedureAddress): Promise<readonly Condition[]> {
  const params: TimelineParams = { ...sheet, picked: {} };
  const answer = await ask<TimelineAnswer>(client, methods.timeline, params);
  return answer?.kind === 'timeline' ? answer.timeline.conditions.filter(leavesAChoice) : [];
}

/** Whether it matters, and more than one value is covered. */
function leavesAChoice(condition: Condition): boolean {
  if (!condition.decides || condition.kind === 'reading') return condition.decides;
  return condition.values.filter(({ covered }) => covered).length > 1;
}

async function pickCondition(
  conditions: readonly Condition[],
  values: ReadonlyMap<string, Value>,
): Promise<Condition | 'done' | undefined> {
  const done: QuickPickItem & { readonly next: 'done' } = {
    next: 'done',
    label: `$(check) ${values.size === 0 ? l10n.t('For every situation') : l10n.t('For this situation')}`,
  };
  const rows = conditions.map((next) => ({
    next,
    label: next.label,
    description: values.get(next.name)?.label ?? l10n.t('any'),
  }));
  const title = l10n.t('What is the job like?');
  const placeHolder = l10n.t('Pick what is known of it, or go on.');
  return (await window.showQuickPick([done, ...rows], { title, placeHolder }))?.next;
}

async function askValue(condition: Condition): Promise<Value | 'any' | undefined> {
  if (condition.kind === 'reading') return askNumber(condition);
  const any: QuickPickItem & { readonly value: 'any' } = { value: 'any', label: l10n.t('any') };
  const rows = condition.values
    .filter(({ covered }) => covered)
    .map(({ name, label }) => ({ value: { label, test: `is ${name}` }, label }));
  return (await window.showQuickPick([any, ...rows], { title: condition.label }))?.value;
}

async function askNumber(
  condition: Extract<Condition, { readonly kind: 'reading' }>,
): Promise<Value | 'any' | undefined> {
  const { label, unit, low, high } = condition;
  const text = await window.showInputBox({
    title: label,
    prompt: l10n.t('From {0} to {1} {2}; leave it empty for any.', low, high, unit.name),
    validateInput: (given) =>
      given.trim() === '' || isBetween(given, low, high)
        ? undefined
        : l10n.t('Give a number from {0} to {1}.', low, high),
  });
  if (text === undefined) return undefined;
  if (text.trim() === '') return 'any';
  const quantity = `${text.trim()} ${unit.name}`;
  return { label: quantity, test: `is ${quantity}` };
}

function isBetween(text: string, low: number, high: number): boolean {
  if (!/^-?\d+(\.\d+)?$/.test(text.trim())) return false;
  const number = Number(text);
  return number >= low && number <= high;
}
