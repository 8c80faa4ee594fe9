// One test has another editor's client speak to the server. No npm package brings Neovim, so where the machine has none that test
// is left out, and it is said. `.ci/run` installs it where it can.
import { spawnSync } from 'node:child_process';

const file = 'tests/server/protocol/neovim.test.ts';

/** What the test runner is told besides: which test to leave out, if any. */
export function leavingOutNeovim() {
  if (spawnSync('nvim', ['--version']).error === undefined) return [];
  console.log(`There is no nvim on this machine: ${file} is left out.`);
  return ['--exclude', file];
}
