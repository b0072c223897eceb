/** The tables of REFERENCE.md that are made from the program's own tables, and their way into the page. */
import { readFileSync } from 'node:fs';
import { WORDS, type Word, type WordKind } from '../../grammar/tokens.js';
import { FAULT_KINDS } from '../../server/machine/index.js';
import { provingWording } from '../../server/proving/wording/index.js';
import { FAULT_FORMS } from '../../server/sequence/fault-text.js';
import { CODES } from '../../server/sequence/findings.js';
import { SETTINGS, type SettingSchema } from '../../server/service/settings.js';

const KIND: Readonly<Record<WordKind, string>> = {
  section: 'opens a section',
  machine: 'line of a machine',
  step: 'step',
  register: 'register',
  detail: 'detail',
};

/** In a table a bar must be escaped, even between backticks. */
const cell = (text: string): string => text.replaceAll('|', '\\|');
const code = (text: string): string => `\`${cell(text)}\``;
const table = (rows: readonly (readonly string[])[]): string => {
  const [head, ...body] = rows;
  return [head, head.map(() => '---'), ...body].map((row) => `| ${row.join(' | ')} |`).join('\n');
};

/** A step has an entry of its own on the page. */
const wordCell = ({ word, kinds }: Word): string => (kinds.includes('step') ? `[${code(word)}](#${word})` : code(word));

export const wordsTable = (): string =>
  table([
    ['word', 'what it is', 'how it is written', 'meaning'],
    ...WORDS.map((w) => [
      wordCell(w),
      w.kinds.map((kind) => KIND[kind]).join(', '),
      Object.values(w.forms ?? {})
        .flat()
        .map(code)
        .join('<br>'),
      cell(w.meaning),
    ]),
  ]);

/** With the first sentence of each entry. */
export const findingsTable = (page: string): string =>
  table([
    ['finding', 'level', 'what is noticed'],
    ...Object.entries(CODES).map(([name, level]) => [`[${code(name)}](#${name})`, level, cell(aboutOf(name, page))]),
  ]);

function aboutOf(name: string, page: string): string {
  const [, paragraph] = new RegExp(`^### ${name}\n\n((?:.+\n)+)`, 'm').exec(page) ?? [];
  const sentence = /^[\s\S]*?[.:](?=\s)/.exec(paragraph ?? '')?.[0].replaceAll('\n', ' ');
  if (!sentence) throw new Error(`The entry of ${name} begins with no sentence`);
  return sentence.replace(/:$/, '.');
}

export const faultsTable = (): string =>
  table([
    ['fault', 'what the machine does'],
    ...FAULT_KINDS.map((kind) => [code(FAULT_FORMS[kind]), cell(provingWording('en').kindMeaning[kind])]),
  ]);

const texts: Readonly<Record<string, string>> = JSON.parse(
  readFileSync(new URL('../../client/package.nls.json', import.meta.url), 'utf8'),
);
/** How much is written of the talk with the server: the client of the protocol reads that itself. */
const TALK: SettingSchema = { type: 'string', enum: ['off', 'messages', 'verbose'], default: 'off' };

export const settingsTable = (): string =>
  table([
    ['setting', 'what it can be', 'as it comes', 'what it does'],
    ...Object.entries<SettingSchema>({ ...SETTINGS, 'trace.server': TALK }).map(([name, schema]) => [
      code(`cranknote.${name}`),
      valuesOf(name, schema),
      code(String(schema.default)),
      cell(texts[`setting.${name}`] ?? ''),
    ]),
  ]);

function valuesOf(name: string, { type, enum: values, minimum, maximum }: SettingSchema): string {
  if (values) return values.map((value) => `${code(value)}: ${cell(texts[`setting.${name}.${value}`])}`).join('<br>');
  return type === 'boolean' ? `${code('true')}, ${code('false')}` : `${minimum} to ${maximum}`;
}

const TABLES: Readonly<Record<string, (page: string) => string>> = {
  words: wordsTable,
  findings: findingsTable,
  faults: faultsTable,
  settings: settingsTable,
};

/** The page with its tables made afresh. Throws where the place for a table is missing or stands twice. */
export function withFreshTables(page: string): string {
  return Object.entries(TABLES).reduce((text, [name, make]) => {
    const open = `<!-- ${name}: generated -->\n`;
    const parts = text.split(open);
    const end = parts[1]?.indexOf('<!-- end -->') ?? -1;
    if (parts.length !== 2 || end < 0) throw new Error(`The page needs one place for its table of ${name}`);
    return `${parts[0]}${open}\n${make(page)}\n\n${parts[1].slice(end)}`;
  }, page);
}
