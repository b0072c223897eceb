/** Which room may import which, and that nothing but the command line knows of Node. */
import { readdirSync, readFileSync } from 'node:fs';
import path from 'node:path';
import { fileURLToPath } from 'node:url';
import { describe, expect, test } from 'vitest';

interface Import {
  /** As written, or for a file of the project its path from the root. */
  readonly target: string;
  readonly isTypeOnly: boolean;
}

const ROOT = fileURLToPath(new URL('..', import.meta.url));

/** What each room may import of the project; libraries are not rooms. */
const ROOMS: readonly { readonly room: string; readonly imports: readonly string[]; readonly isPortable: boolean }[] = [
  { room: 'grammar', imports: ['grammar'], isPortable: true },
  { room: 'server/machine', imports: ['server/machine'], isPortable: true },
  { room: 'server/sequence', imports: ['server/sequence', 'server/machine', 'grammar'], isPortable: true },
  {
    room: 'server/planning',
    imports: ['server/planning', 'server/sequence', 'server/machine', 'grammar'],
    isPortable: true,
  },
  {
    room: 'server/sheets',
    imports: ['server/sheets', 'server/proving', 'server/sequence', 'server/machine', 'grammar'],
    isPortable: true,
  },
  {
    room: 'server/weave',
    imports: ['server/weave', 'server/sheets', 'server/sequence', 'grammar'],
    isPortable: true,
  },
  {
    room: 'server/proving',
    imports: ['server/proving', 'server/sequence', 'server/machine', 'grammar'],
    isPortable: true,
  },
  {
    room: 'server/stepping',
    imports: ['server/stepping', 'server/sequence', 'server/machine', 'grammar'],
    isPortable: true,
  },
  {
    room: 'server/service',
    imports: [
      'server/service',
      'server/stepping',
      'server/weave',
      'server/sheets',
      'server/planning',
      'server/proving',
      'server/sequence',
      'server/machine',
      'grammar',
    ],
    isPortable: true,
  },
  {
    room: 'server/adapter',
    imports: [
      'server/adapter',
      'server/service',
      'server/stepping',
      'server/proving',
      'server/sequence',
      'server/machine',
      'grammar',
    ],
    isPortable: true,
  },
  { room: 'server/cli', imports: ['server', 'grammar'], isPortable: false },
  { room: 'client', imports: ['client'], isPortable: true },
];
/** Files that know Node, because that is what they are for. */
const OF_NODE = new Set([
  'client/node.ts',
  'server/node.ts',
  'server/node-main.ts',
  'server/node-step.ts',
  'server/disk.ts',
]);
/** The server itself stands on the service and knows neither the command line nor what only Node has. */
const SERVER = {
  room: 'server',
  imports: ['server/adapter', 'server/service', 'server/sequence'],
  isPortable: true,
};
const NODE_GLOBAL = /(?<![\w$.'"`-])(?:process|Buffer|__dirname|__filename|require)(?=\s*[.([])/;

const isIn = (file: string, room: string): boolean => file.startsWith(`${room}/`);

/** The text without comments, so that prose is taken for no code. */
const codeOf = (source: string): string =>
  source.replace(/\/\*[\s\S]*?\*\//g, (comment) => comment.replace(/[^\n]/g, ' ')).replace(/^\s*\/\/.*$/gm, '');

/** Imports and re-exports, static and dynamic. */
function importsOf(file: string, source: string): Import[] {
  const code = codeOf(source);
  const statement = /^\s*(?:import|export)\s+(type\s+)?((?:[^'";]*?\bfrom\s+)?)['"]([^'"]+)['"]/gm;
  const dynamic = /\bimport\s*\(\s*['"]([^'"]+)['"]\s*\)/g;
  const found: Import[] = [];
  for (const [, type, clause, target] of code.matchAll(statement)) {
    const braces = /\{([^}]*)\}\s*from\s+$/.exec(clause)?.[1];
    const names = braces?.split(',').flatMap((name) => (name.trim() === '' ? [] : [name.trim()])) ?? [];
    const areAllTypes = /^\{/.test(clause) && names.length > 0 && names.every((name) => name.startsWith('type '));
    found.push({ target: resolved(file, target), isTypeOnly: type !== undefined || areAllTypes });
  }
  for (const [, target] of code.matchAll(dynamic)) found.push({ target: resolved(file, target), isTypeOnly: false });
  return found;
}

const resolved = (file: string, target: string): string =>
  target.startsWith('.') ? path.posix.join(path.posix.dirname(file), target).replace(/\.js$/, '.ts') : target;

/** Arrows that go where they must not. */
function forbidden(files: ReadonlyMap<string, string>): string[] {
  const found: string[] = [];
  for (const [file, source] of files) {
    const isLoose = /^server\/[^/]+$/.test(file);
    const rules = isLoose ? SERVER : ROOMS.find(({ room }) => isIn(file, room));
    if (!rules) continue;
    const isPortable = rules.isPortable && !OF_NODE.has(file);
    for (const { target } of importsOf(file, source)) {
      const isOwn = files.has(target) || /^(?:grammar|server|client|tests)\//.test(target);
      const isBeside = isLoose && /^server\/[^/]+$/.test(target) && (!OF_NODE.has(target) || OF_NODE.has(file));
      if (isOwn && !isBeside && !rules.imports.some((room) => isIn(target, room)))
        found.push(`${file} imports ${target}`);
      if (isPortable && target.startsWith('node:')) found.push(`${file} imports ${target}`);
    }
    const global = isPortable && NODE_GLOBAL.exec(codeOf(source))?.[0];
    if (global) found.push(`${file} uses ${global}`);
  }
  return found;
}

/** Files that need one another's values in a circle, as the way round it. */
function circles(files: ReadonlyMap<string, string>): string[] {
  const arrows = new Map<string, string[]>();
  for (const [file, source] of files) {
    const values = importsOf(file, source).filter(({ target, isTypeOnly }) => !isTypeOnly && files.has(target));
    arrows.set(
      file,
      values.map(({ target }) => target),
    );
  }
  const found = new Set<string>();
  const done = new Set<string>();
  const walk = (file: string, way: readonly string[]): void => {
    const start = way.indexOf(file);
    if (start >= 0) found.add([...way.slice(start), file].join(' > '));
    if (start >= 0 || done.has(file)) return;
    for (const target of arrows.get(file) ?? []) walk(target, [...way, file]);
    done.add(file);
  };
  for (const file of arrows.keys()) walk(file, []);
  return [...found];
}

function sourcesBelow(...rooms: string[]): Map<string, string> {
  const files = new Map<string, string>();
  for (const room of rooms) {
    for (const name of readdirSync(path.join(ROOT, room), { recursive: true, encoding: 'utf8' })) {
      const file = `${room}/${name.split(path.sep).join('/')}`;
      if (file.endsWith('.ts')) files.set(file, readFileSync(path.join(ROOT, file), 'utf8'));
    }
  }
  return files;
}

const fake = (files: Readonly<Record<string, string>>): Map<string, string> => new Map(Object.entries(files));

describe('the checker itself', () => {
  test('sees an arrow into a room above', () => {
    const files = { 'grammar/leaf.ts': "import { run } from '../server/sequence/run.js';\n" };
    expect(forbidden(fake(files))).toEqual(['grammar/leaf.ts imports server/sequence/run.ts']);
  });

  test('sees types, re-exports and dynamic imports too', () => {
    const files = {
      'server/machine/a.ts': "import type { Step } from '../../grammar/tree.js';\n",
      'server/machine/b.ts': "export * from '../sequence/run.js';\n",
      'server/sequence/c.ts': "const late = await import('../cli/main.js');\n",
      'server/sequence/d.ts': "import {\n  one,\n  two,\n} from '../../tests/marked.js';\n",
    };
    expect(forbidden(fake(files))).toEqual([
      'server/machine/a.ts imports grammar/tree.ts',
      'server/machine/b.ts imports server/sequence/run.ts',
      'server/sequence/c.ts imports server/cli/main.ts',
      'server/sequence/d.ts imports tests/marked.ts',
    ]);
  });

  test.each([
    ["import { readFileSync } from 'node:fs';", 'grammar/x.ts imports node:fs'],
    ['export const here = process.cwd();', 'grammar/x.ts uses process'],
    ["const path = require('path');", 'grammar/x.ts uses require'],
    ['const bytes = Buffer.from(text);', 'grammar/x.ts uses Buffer'],
  ])('sees Node: %s', (source, message) => {
    expect(forbidden(fake({ 'grammar/x.ts': source }))).toEqual([message]);
    expect(forbidden(fake({ 'server/cli/x.ts': source }))).toEqual([]);
  });

  test('takes no prose and no other name for Node', () => {
    const source = "/** process.exit */\n// require('x')\nconst text = 'Buffer.from';\nthis.process();\n";
    expect(forbidden(fake({ 'grammar/x.ts': source }))).toEqual([]);
  });

  test('sees a circle of values and lets types go round', () => {
    const a = "import { b } from './b.js';\n";
    expect(circles(fake({ 'grammar/a.ts': a, 'grammar/b.ts': "export { a } from './a.js';\n" }))).toEqual([
      'grammar/a.ts > grammar/b.ts > grammar/a.ts',
    ]);
    for (const types of ["import type { A } from './a.js';\n", "import { type A, type B } from './a.js';\n"]) {
      expect(circles(fake({ 'grammar/a.ts': a, 'grammar/b.ts': types }))).toEqual([]);
    }
    const mixed = "import { type A, a } from './a.js';\n";
    expect(circles(fake({ 'grammar/a.ts': a, 'grammar/b.ts': mixed }))).toHaveLength(1);
  });
});

describe('the project', () => {
  const files = sourcesBelow('grammar', 'server', 'client');

  test('has sources in every room', () => {
    for (const { room } of ROOMS) expect([...files.keys()].filter((file) => isIn(file, room))).not.toEqual([]);
  });
  test('has no arrow that goes where it must not', () => expect(forbidden(files)).toEqual([]));
  test('has no circle of values', () => expect(circles(files)).toEqual([]));
  test('imports no file that is not there', () => {
    const missing = [...files].flatMap(([file, source]) =>
      importsOf(file, source).filter(({ target }) => /^(?:grammar|server|client)\//.test(target) && !files.has(target)),
    );
    expect(missing).toEqual([]);
  });
});
