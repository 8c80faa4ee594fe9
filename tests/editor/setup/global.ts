import { existsSync, mkdirSync, rmSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import type { TestProject } from 'vitest/node';
import { type Editor, serve } from './serve.js';

declare module 'vitest' {
  export interface ProvidedContext {
    readonly editor: Editor;
  }
}

const path = (name: string) => fileURLToPath(new URL(`../../../${name}`, import.meta.url));

/** One editor for the whole run; the pictures of the run before are gone. */
export default async function setup(project: TestProject): Promise<() => Promise<void>> {
  const vsix = path('out/quarrel.vsix');
  if (!existsSync(vsix)) throw new Error('There is no out/quarrel.vsix: run npm run package first.');
  rmSync(path('out/editor'), { recursive: true, force: true });
  mkdirSync(path('out/editor/logs'), { recursive: true });
  const { editor, stop } = await serve(vsix, path('out/editor/logs'));
  project.provide('editor', editor);
  return stop;
}
