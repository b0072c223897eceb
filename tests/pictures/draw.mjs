// Redraws the pictures of the README from what the program really prints.
import { spawnSync } from 'node:child_process';
import { mkdirSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { build } from 'esbuild';

const root = fileURLToPath(new URL('../..', import.meta.url));
const cache = `${root}/node_modules/.cache/cranknote`;
mkdirSync(cache, { recursive: true });
await build({
  entryPoints: [`${root}/tests/pictures/terminal.ts`],
  outfile: `${cache}/terminal.cjs`,
  bundle: true,
  platform: 'node',
  target: 'node20',
  format: 'cjs',
  define: { 'import.meta.url': 'bundleUrl' },
  banner: { js: "const bundleUrl = require('node:url').pathToFileURL(__filename).href;" },
  logLevel: 'warning',
});
process.exitCode = spawnSync(process.execPath, [`${cache}/terminal.cjs`], { stdio: 'inherit', cwd: root }).status ?? 1;
