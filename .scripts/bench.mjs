// Runs the benchmarks in tests/speed and prints their tables.
import { build } from './build.mjs';
import { run } from './steps.mjs';

await build();
run('vitest', ['run', '--config', 'tests/speed/vitest.config.ts', '--silent=false', ...process.argv.slice(2)]);
