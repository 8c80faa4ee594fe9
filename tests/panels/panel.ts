import { mkdirSync, readFileSync } from 'node:fs';
import chromium from '@sparticuz/chromium';
import axe from 'axe-core';
import { type Browser, type Page, chromium as playwright } from 'playwright-core';
import { afterAll, beforeAll, expect } from 'vitest';
import { pageOf } from '../../packages/extension/src/client/panel-page.js';
import type { FromPanel, ToPanel, View } from '../../packages/extension/src/panels/messages.js';
import type { Theme } from './themes.js';

const dist = new URL('../../packages/extension/dist/', import.meta.url);
const out = new URL('../../out/panels/', import.meta.url);
const origin = 'https://panel.test';

/** The editor's part, as far as a page sees it: it notes what it is told, and keeps a state over a reload. */
const editor = `{
  window.told = [];
  window.acquireVsCodeApi = () => ({
    postMessage: (message) => window.told.push(message),
    getState: () => JSON.parse(sessionStorage.getItem('state') ?? 'null') ?? undefined,
    setState: (state) => sessionStorage.setItem('state', JSON.stringify(state)),
  });
}`;

let browser: Browser | undefined;

/** A browser for the tests of a file. */
export function withBrowser(): void {
  beforeAll(async () => {
    const executablePath = await chromium.executablePath();
    browser = await playwright.launch({ executablePath, args: chromium.args });
  });
  afterAll(async () => browser?.close());
}

export interface PanelPage {
  readonly page: Page;
  readonly problems: readonly string[];
  say(message: ToPanel): Promise<void>;
  /** What the page has told so far, the newest last. */
  told(): Promise<readonly FromPanel[]>;
  reload(): Promise<void>;
  picture(name: string): Promise<void>;
  /** What is seriously wrong for people who use it without eyes or without a mouse, in words. */
  barriers(): Promise<readonly string[]>;
}

export interface Opening {
  readonly view: View;
  readonly theme: Theme;
  readonly language?: string;
  readonly width?: number;
}

/** The page of a panel as it is built, in a window of its own. */
export async function openPanel({ view, theme, language = 'en', width = 760 }: Opening): Promise<PanelPage> {
  if (browser === undefined) throw new Error('no browser has been started');
  const context = await browser.newContext({ viewport: { width, height: 1100 } });
  const page = await context.newPage();
  const problems: string[] = [];
  page.on('pageerror', (error) => problems.push(error.message));
  page.on('console', (message) => message.type() === 'error' && problems.push(message.text()));
  await page.addInitScript({ content: editor });
  await page.route(`${origin}/**`, (route) => {
    const name = new URL(route.request().url()).pathname.slice(1);
    if (name === '') return route.fulfill({ contentType: 'text/html', body: pageFor(view, theme, language) });
    return route.fulfill({
      contentType: name.endsWith('.css') ? 'text/css' : 'text/javascript',
      body: fileNamed(name, theme),
    });
  });
  const listens = (): Promise<void> => expect.poll(() => page.evaluate('window.told.length')).toBeGreaterThan(0);
  await page.goto(`${origin}/`);
  await listens();
  return {
    page,
    problems,
    say: (message) => page.evaluate(`window.postMessage(${JSON.stringify(message)}, '*')`),
    told: () => page.evaluate<readonly FromPanel[]>('window.told'),
    reload: async () => {
      await page.reload();
      await listens();
    },
    picture: async (name) => {
      mkdirSync(out, { recursive: true });
      await page.screenshot({ path: new URL(`${name}.png`, out).pathname });
    },
    barriers: async () => {
      await page.evaluate(axe.source);
      const results = await page.evaluate<axe.AxeResults>('axe.run()');
      return results.violations
        .filter(({ impact }) => impact === 'serious' || impact === 'critical')
        .flatMap(({ id, nodes }) => nodes.map((node) => `${id}: ${node.html} ${node.failureSummary ?? ''}`));
    },
  };
}

/** The page that the extension makes, in a body as the editor marks it. */
function pageFor(view: View, theme: Theme, language: string): string {
  const page = pageOf({ view, title: view, language, source: origin, file: (name) => `${origin}/${name}` });
  return page.replace('<body ', `<body class="${theme.body}" `);
}

/** A file of the bundle; the colours of a theme go before our own style. */
function fileNamed(name: string, { properties }: Theme): string {
  const text = readFileSync(new URL(name, dist), 'utf8');
  if (name !== 'panel.css') return text;
  const lines = Object.entries(properties).map(([property, value]) => `${property}: ${value};`);
  return `:root { ${lines.join(' ')} }\n${text}`;
}
