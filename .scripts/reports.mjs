// Runs tests and counts what they report.
import { mkdirSync, readFileSync, rmSync } from 'node:fs';
import { join } from 'node:path';
import { root, tryRun } from './steps.mjs';

/** Runs the tests of a configuration that match `paths`, all where there are none. Its report stays in `out/`. */
export function vitest(config, report, paths) {
  const file = join(root, 'out', report);
  mkdirSync(join(root, 'out'), { recursive: true });
  rmSync(file, { force: true });
  const reporters = ['--reporter=default', '--reporter=json', `--outputFile.json=${file}`];
  const status = tryRun('vitest', ['run', '--config', config, ...reporters, ...paths]);
  const { passed, failed } = counted(file);
  // A run that could not begin fails no test of its own, and has failed all the same.
  return { passed, failed: status === 0 ? failed : Math.max(failed, 1) };
}

/** What the runner reports; a runner that left no report has failed. */
function counted(file) {
  try {
    const { numPassedTests, numFailedTests } = JSON.parse(readFileSync(file, 'utf8'));
    return { passed: numPassedTests, failed: numFailedTests };
  } catch {
    return { passed: 0, failed: 1 };
  }
}
