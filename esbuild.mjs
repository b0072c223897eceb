// Bundles what users run into dist/: one file an entry, so that nothing has to be installed beside it.
import { readFileSync } from 'node:fs';
import { argv } from 'node:process';
import { build, context } from 'esbuild';

const { version } = JSON.parse(readFileSync(new URL('./package.json', import.meta.url), 'utf8'));

/**
 * Libraries that do nothing when they are loaded, though their packages do not say so: what is not asked of them stays out.
 * @type {import('esbuild').Plugin}
 */
const unused = {
  name: 'unused',
  setup: ({ onResolve, resolve }) =>
    onResolve({ filter: /^(entities|mdurl|uc\.micro)(\/|$)/ }, async ({ path, pluginData, ...from }) =>
      pluginData === unused
        ? undefined
        : { ...(await resolve(path, { ...from, pluginData: unused })), sideEffects: false },
    ),
};

/** @type {import('esbuild').BuildOptions} */
const common = {
  outdir: 'dist',
  bundle: true,
  minify: true,
  charset: 'utf8',
  target: 'es2022',
  logLevel: 'warning',
  plugins: [unused],
};

/** @type {import('esbuild').BuildOptions} */
const forNode = {
  ...common,
  platform: 'node',
  target: 'node20',
  format: 'cjs',
  outExtension: { '.js': '.cjs' },
  // A library asks where it is; in CommonJS the module has to say it.
  banner: { js: "const bundleUrl = require('node:url').pathToFileURL(__filename).href;" },
  define: { CRANKNOTE_VERSION: JSON.stringify(version), 'import.meta.url': 'bundleUrl' },
};

const bundles = [
  {
    ...forNode,
    entryPoints: { cranknote: 'server/cli/main.ts' },
    banner: { js: `#!/usr/bin/env node\n${forNode.banner.js}` },
  },
  { ...forNode, entryPoints: { 'server-node': 'server/node-main.ts' } },
  {
    ...common,
    entryPoints: { 'server-worker': 'server/worker.ts' },
    platform: 'browser',
    format: 'iife',
    define: { CRANKNOTE_VERSION: JSON.stringify(version), 'import.meta.url': '""' },
  },
  // The editor gives the extension what is called vscode.
  { ...forNode, entryPoints: { 'client-node': 'client/node.ts' }, external: ['vscode'] },
  {
    ...common,
    entryPoints: { 'client-web': 'client/web.ts' },
    platform: 'browser',
    format: 'cjs',
    external: ['vscode'],
  },
  // What panels of the extension show.
  {
    ...common,
    entryPoints: ['sheet', 'machine'].flatMap((page) =>
      ['ts', 'css'].map((ending) => ({ in: `client/page/${page}.${ending}`, out: `${page}-page` })),
    ),
    platform: 'browser',
    format: 'iife',
  },
];

if (argv.includes('--watch')) {
  for (const bundle of bundles) await (await context({ ...bundle, logLevel: 'info' })).watch();
} else {
  await Promise.all(bundles.map((bundle) => build(bundle)));
}
