// Redraws pictures from what the program really does: node tests/pictures/draw.mjs [NAME …], the names being those of the
// files beside this one (terminal and walkthrough where none is named).
import { spawnSync } from 'node:child_process';
import { mkdirSync } from 'node:fs';
import { argv } from 'node:process';
import { fileURLToPath } from 'node:url';
import { build } from 'esbuild';

const root = fileURLToPath(new URL('../..', import.meta.url));
const cache = `${root}/node_modules/.cache/cranknote`;
mkdirSync(cache, { recursive: true });
const named = argv.slice(2);
for (const name of named.length > 0 ? named : ['terminal', 'walkthrough']) {
  const outfile = `${cache}/${name}-${process.pid}.cjs`;
  await build({
    entryPoints: [`${root}/tests/pictures/${name}.ts`],
    outfile,
    bundle: true,
    platform: 'node',
    target: 'node20',
    format: 'cjs',
    external: ['playwright-core'],
    define: { 'import.meta.url': 'bundleUrl' },
    banner: { js: `const bundleUrl = require('node:url').pathToFileURL('${root}/tests/pictures/${name}.ts').href;` },
    logLevel: 'warning',
  });
  const { status } = spawnSync(process.execPath, [outfile], { stdio: 'inherit', cwd: root });
  process.exitCode ||= status ?? 1;
}
