import { type CheckedParams, methods } from '@quarrel/server/protocol';
import { Disposable, type Event, EventEmitter } from 'vscode';
import type { BaseLanguageClient } from 'vscode-languageclient';

/** What the server tells of its checks. The client's library hands each notification to one listener; here any number can listen. */
export interface Checks extends Disposable {
  readonly onChecking: Event<void>;
  readonly onChecked: Event<CheckedParams>;
}

export function listenToChecks(client: BaseLanguageClient): Checks {
  const checking = new EventEmitter<void>();
  const checked = new EventEmitter<CheckedParams>();
  const parts = Disposable.from(
    checking,
    checked,
    client.onNotification(methods.checking, () => checking.fire()),
    client.onNotification(methods.checked, (params: CheckedParams) => checked.fire(params)),
  );
  return { onChecking: checking.event, onChecked: checked.event, dispose: () => parts.dispose() };
}
