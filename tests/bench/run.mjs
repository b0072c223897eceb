// Bundles the benchmarks, so that they time what is shipped and not a loader, and runs them.
import { spawnSync } from 'node:child_process';
import { mkdirSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { build } from 'esbuild';

const root = fileURLToPath(new URL('../..', import.meta.url));
const outfile = `${root}/node_modules/.cache/cranknote/bench.cjs`;
mkdirSync(`${root}/node_modules/.cache/cranknote`, { recursive: true });
await build({
  entryPoints: [`${root}/tests/bench/bench.ts`],
  outfile,
  bundle: true,
  platform: 'node',
  target: 'node20',
  format: 'cjs',
  // It loads parts of itself in a way that a bundler can't follow.
  external: ['vscode-json-languageservice'],
  logLevel: 'warning',
});
process.exitCode = spawnSync(process.execPath, [outfile], { stdio: 'inherit', cwd: root }).status ?? 1;
