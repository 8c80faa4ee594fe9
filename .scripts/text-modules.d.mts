import type { Plugin as BundlerPlugin } from 'esbuild';
import type { Plugin as ServerPlugin } from 'vitest/config';

export const bundledTexts: BundlerPlugin;
export const servedTexts: ServerPlugin;
