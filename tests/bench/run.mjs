// Bundles the benchmarks, so that they time what is shipped and not a loader, and runs them.
import { spawnSync } from 'node:child_process';
import { mkdirSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { build } from 'esbuild';

const root = fileURLToPath(new URL('../..', import.meta.url));
const folder = `${root}/node_modules/.cache/cranknote`;
mkdirSync(folder, { recursive: true });

/** @returns {Promise<string>} Where the bundle is. */
async function bundled(entry, name, plugins = []) {
  const outfile = `${folder}/${name}.cjs`;
  await build({
    entryPoints: [`${root}/tests/bench/${entry}`],
    outfile,
    bundle: true,
    platform: 'node',
    target: 'node20',
    format: 'cjs',
    // It loads parts of itself in a way that a bundler can't follow.
    external: ['vscode-json-languageservice'],
    logLevel: 'warning',
    plugins,
  });
  return outfile;
}

/**
 * A check in which nobody looks for cheaper steps: what that takes can be timed without a switch in what is shipped.
 * @type {import('esbuild').Plugin}
 */
const withoutCheaperSteps = {
  name: 'without-cheaper-steps',
  setup: ({ onLoad }) =>
    onLoad({ filter: /[/\\]shorter-runs\.ts$/ }, () => ({
      loader: 'ts',
      contents: 'export function* shorterRuns() { return []; }',
    })),
};

const bench = await bundled('bench.ts', 'bench');
const checks = [
  await bundled('checking.ts', 'checking-with'),
  await bundled('checking.ts', 'checking-without', [withoutCheaperSteps]),
];
process.exitCode = spawnSync(process.execPath, [bench, ...checks], { stdio: 'inherit', cwd: root }).status ?? 1;
