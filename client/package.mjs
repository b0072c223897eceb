// Puts the extension together in dist/extension/, and packs it into dist/cranknote.vsix.
//   node client/package.mjs          packs what runs in a process and in a web worker
//   node client/package.mjs --web    the same for web workers alone, for trying that host beside a disk
import { cpSync, mkdirSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { argv } from 'node:process';
import { fileURLToPath } from 'node:url';
import { createVSIX } from '@vscode/vsce';
import { build } from 'esbuild';

const root = fileURLToPath(new URL('..', import.meta.url));
const isWebOnly = argv.includes('--web');
const stage = `${root}dist/${isWebOnly ? 'extension-web' : 'extension'}`;
const read = (file) => readFileSync(`${root}${file}`, 'utf8');

/** The settings as the server declares them, so that no other file has to spell them out. */
async function settings() {
  const { outputFiles } = await build({
    entryPoints: [`${root}server/service/settings.ts`],
    bundle: true,
    format: 'esm',
    write: false,
  });
  const { SETTINGS } = await import(`data:text/javascript,${encodeURIComponent(outputFiles[0].text)}`);
  return SETTINGS;
}

/** Properties of the manifest for a table of settings; descriptions stand in package.nls.json. */
function configuration(table) {
  const properties = Object.fromEntries(
    Object.entries(table).map(([name, schema]) => {
      const enumDescriptions = schema.enum?.map((value) => `%setting.${name}.${value}%`);
      const markdownDescription = `%setting.${name}%`;
      const described = { ...schema, ...(enumDescriptions && { enumDescriptions }), markdownDescription };
      return [`cranknote.${name}`, { ...described, scope: 'resource' }];
    }),
  );
  const levels = ['off', 'messages', 'verbose'];
  return {
    title: 'Cranknote',
    properties: {
      ...properties,
      'cranknote.trace.server': {
        type: 'string',
        enum: levels,
        enumDescriptions: levels.map((level) => `%setting.trace.server.${level}%`),
        default: 'off',
        description: '%setting.trace.server%',
        scope: 'window',
      },
    },
  };
}

/** The texts of the manifest; those of settings lead to the list of all of them. */
function texts(file, table) {
  const all = JSON.parse(read(`client/${file}`));
  const { 'setting.list': list, ...others } = all;
  const link = `[${list}](command:cranknote.openSettingsList)`;
  for (const name of Object.keys(table)) others[`setting.${name}`] += `\n\n${link}`;
  return others;
}

/** The manifest as it is shipped. */
function manifest(table) {
  const own = JSON.parse(read('client/package.json'));
  const { version } = JSON.parse(read('package.json'));
  const { type: _, main, ...rest } = own;
  return {
    ...rest,
    version,
    ...(!isWebOnly && { main }),
    contributes: { ...own.contributes, configuration: configuration(table) },
  };
}

rmSync(stage, { recursive: true, force: true });
mkdirSync(`${stage}/dist`, { recursive: true });
mkdirSync(`${stage}/grammar`);
const writeJson = (file, content) => writeFileSync(`${stage}/${file}`, `${JSON.stringify(content, null, 2)}\n`);
const table = await settings();
writeJson('package.json', manifest(table));
for (const file of ['package.nls.json', 'package.nls.de.json']) writeJson(file, texts(file, table));
for (const file of ['l10n', 'icons', 'walkthrough', 'preview.css']) {
  cpSync(`${root}client/${file}`, `${stage}/${file}`, { recursive: true });
}
cpSync(`${root}samples`, `${stage}/samples`, { recursive: true });
// Where the extension is served, a folder can't be searched.
writeJson('samples/files.json', readdirSync(`${root}samples`).sort());
// The pictures of the page are for whoever reads it elsewhere: in the editor it stands beside the thing itself.
const page = read('client/README.md').replace(/<picture>[\s\S]*?<\/picture>\n+/g, '');
writeFileSync(`${stage}/README.md`, page);
for (const file of ['CHANGELOG.md', 'LICENSE', 'grammar/REFERENCE.md']) {
  cpSync(`${root}${file}`, `${stage}/${file.split('/').at(-1)}`);
}
for (const file of [
  'crank.tmLanguage.json',
  'markdown.tmLanguage.json',
  'language-configuration.json',
  'snippets.json',
]) {
  cpSync(`${root}grammar/editor/${file}`, `${stage}/grammar/${file}`);
}
const pages = ['sheet', 'machine'].flatMap((page) => [`${page}-page.js`, `${page}-page.css`]);
const bundles = [
  ...['client-web.js', 'server-worker.js', ...pages],
  ...(isWebOnly ? [] : ['client-node.cjs', 'server-node.cjs', 'cranknote.cjs']),
];
for (const file of bundles) cpSync(`${root}dist/${file}`, `${stage}/dist/${file}`);

await createVSIX({
  cwd: stage,
  packagePath: `${root}dist/${isWebOnly ? 'cranknote-web' : 'cranknote'}.vsix`,
  dependencies: false,
  allowMissingRepository: true,
  skipLicense: true,
  rewriteRelativeLinks: false,
});
