// `create-vsix.mjs FOLDER FILE`: packs a folder that holds exactly what ships. Needs Node 22 or later.
import { createVSIX } from '@vscode/vsce';

const [cwd, packagePath] = process.argv.slice(2);
await createVSIX({
  cwd,
  packagePath,
  dependencies: false,
  allowMissingRepository: true,
  rewriteRelativeLinks: false,
  skipLicense: false,
});
