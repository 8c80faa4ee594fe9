import { cpSync, mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import chromium from '@sparticuz/chromium';
import { type Browser, chromium as browsers, type Page } from 'playwright-core';
import { afterAll, inject, test } from 'vitest';

/** One window of the editor, with a folder of its own open in it. */
export interface Window {
  readonly page: Page;
  /** A fresh copy of the examples. */
  readonly folder: string;
}

/** What a test wants of its window, beside what all windows have. */
export interface Wish {
  /** Settings of the folder. */
  readonly settings?: Readonly<Record<string, unknown>>;
  /** Whether the window asks whether to trust the folder, and so does not trust it. */
  readonly trust?: 'given' | 'withheld';
  /** Where the extension runs: beside the files, as on a desktop, or in the browser, which has none. */
  readonly host?: 'desktop' | 'browser';
}

/** The themes the panels are looked at in, by the names the editor has for them. */
export const themes = { light: 'Light Modern', dark: 'Dark Modern', contrast: 'Default High Contrast' } as const;

const root = fileURLToPath(new URL('../../..', import.meta.url));
const pictures = join(root, 'out', 'editor');

/** Keeps the editor from saying what has nothing to do with the sheet. */
const calm = {
  'workbench.startupEditor': 'none',
  'workbench.tips.enabled': false,
  'workbench.enableExperiments': false,
  'workbench.reduceMotion': 'on',
  'workbench.secondarySideBar.defaultVisibility': 'hidden',
  'workbench.colorTheme': themes.light,
  'chat.disableAIFeatures': true,
  'extensions.autoUpdate': false,
  'extensions.autoCheckUpdates': false,
  'extensions.ignoreRecommendations': true,
  'telemetry.telemetryLevel': 'off',
  'git.enabled': false,
  'files.autoSave': 'off',
  'files.hotExit': 'off',
  'window.confirmBeforeClose': 'never',
  'editor.minimap.enabled': false,
  'editor.cursorBlinking': 'solid',
  'security.workspace.trust.banner': 'never',
  'security.workspace.trust.startupPrompt': 'never',
};

let browser: Promise<Browser> | undefined;

/** One browser for the windows of a file. It may run as root in a container, where a sandbox of its own cannot be had. */
function theBrowser(): Promise<Browser> {
  browser ??= chromium
    .executablePath()
    .then((executablePath) =>
      browsers.launch({ executablePath, args: ['--no-sandbox', '--disable-gpu'], headless: true }),
    );
  return browser;
}

afterAll(async () => {
  await (await browser)?.close();
  browser = undefined;
});

/**
 * A test in a window of its own on a fresh copy of the examples. A failure leaves a picture of the window, and its message says
 * where that and the editor's logs are.
 */
export function inWindow(name: string, body: (window: Window) => Promise<void>, wish: Wish = {}): void {
  test(name, async () => {
    const place = mkdtempSync(join(tmpdir(), 'quarrel-folder-'));
    const window = await open(join(place, 'examples'), wish);
    try {
      await body(window);
    } catch (error) {
      const failure = await told(error, name, window);
      console.error(`${name}: ${failure.message}`);
      throw failure;
    } finally {
      await window.page.context().close();
      rmSync(place, { recursive: true, force: true });
    }
  });
}

async function open(folder: string, { settings = {}, trust = 'given', host = 'desktop' }: Wish): Promise<Window> {
  const { address, settingsFile } = inject('editor');
  cpSync(join(root, 'examples'), folder, { recursive: true });
  mkdirSync(join(folder, '.vscode'));
  writeFileSync(join(folder, '.vscode', 'settings.json'), JSON.stringify(settings));
  const user = {
    ...calm,
    'security.workspace.trust.enabled': trust === 'withheld',
    ...(host === 'browser' ? { 'remote.extensionKind': { 'quarrel.quarrel': ['web'] } } : {}),
  };
  writeFileSync(settingsFile, JSON.stringify(user));
  const context = await (await theBrowser()).newContext({ viewport: { width: 1440, height: 900 } });
  const page = await context.newPage();
  page.setDefaultTimeout(30_000);
  await page.goto(`${address}/?folder=${encodeURIComponent(folder)}`);
  await page.locator('.explorer-folders-view .monaco-list-row').first().waitFor({ timeout: 60_000 });
  return { page, folder };
}

async function told(error: unknown, name: string, { page }: Window): Promise<Error> {
  const file = join(pictures, `failed-${name.replaceAll(/[^a-z0-9]+/gi, '-')}.png`);
  await page.screenshot({ path: file }).catch(() => undefined);
  const message = error instanceof Error ? (error.stack ?? error.message) : String(error);
  return new Error(`${message}\n  The window: ${file}\n  The editor's logs: ${inject('editor').logs}`);
}

/** Keeps a picture of the window as `out/editor/NAME.png`, with the pointer out of the way. */
export async function picture({ page }: Window, name: string): Promise<void> {
  await page.mouse.move(0, 0);
  await page.screenshot({ path: join(pictures, `${name}.png`) });
}
