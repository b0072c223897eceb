// Bundles what users run into dist/: one file an entry, so that nothing has to be installed beside it.
import { readFileSync } from 'node:fs';
import { argv } from 'node:process';
import { build, context } from 'esbuild';

const { version } = JSON.parse(readFileSync(new URL('./package.json', import.meta.url), 'utf8'));

/** @type {import('esbuild').BuildOptions} */
const cli = {
  entryPoints: { cranknote: 'server/cli/main.ts' },
  outdir: 'dist',
  outExtension: { '.js': '.cjs' },
  bundle: true,
  platform: 'node',
  target: 'node20',
  format: 'cjs',
  minify: true,
  // Chevrotain looks at the names of its own classes.
  keepNames: true,
  // A library asks where it is; in CommonJS the module has to say it.
  banner: { js: "#!/usr/bin/env node\nconst bundleUrl = require('node:url').pathToFileURL(__filename).href;" },
  define: { CRANKNOTE_VERSION: JSON.stringify(version), 'import.meta.url': 'bundleUrl' },
  logLevel: 'warning',
};

if (argv.includes('--watch')) await (await context({ ...cli, logLevel: 'info' })).watch();
else await build(cli);
