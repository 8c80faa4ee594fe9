import type { SharedServices } from '../services.js';

/** Which units an editor shows beside the one that is written: those of the other system, or always those of one. */
export type UnitSystem = 'both' | 'metric' | 'imperial';

/** What a person has chosen under `quarrel.*`, as far as the server looks at it. */
export interface Settings {
  readonly codeLens: boolean;
  readonly inlayHints: { readonly clock: boolean; readonly units: boolean; readonly choices: boolean };
  readonly units: UnitSystem;
}

/** The settings as the editor gave them; whatever is missing or makes no sense is as if nobody had chosen. */
export async function settingsOf({ workspace }: Pick<SharedServices, 'workspace'>): Promise<Settings> {
  const read = async (name: string): Promise<unknown> =>
    workspace.ConfigurationProvider.getConfiguration('quarrel', name);
  const hints = await read('inlayHints');
  const hint = (name: string): boolean => isOn(fieldOf(hints, name));
  return {
    codeLens: isOn(await read('codeLens')),
    inlayHints: { clock: hint('clock'), units: hint('units'), choices: hint('choices') },
    units: systemOf(await read('units')),
  };
}

/** What is not switched off is on. */
function isOn(value: unknown): boolean {
  return value !== false;
}

function systemOf(value: unknown): UnitSystem {
  return value === 'metric' || value === 'imperial' ? value : 'both';
}

function fieldOf(value: unknown, name: string): unknown {
  return typeof value === 'object' && value !== null ? new Map(Object.entries(value)).get(name) : undefined;
}
