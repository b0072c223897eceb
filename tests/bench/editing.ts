/** What an edit costs while somebody types: from the change of the text to the new diagnostics. */
import { getLanguageService, TextDocument } from 'vscode-json-languageservice';
import { Library } from '../../server/sequence/library.js';
import { wordingFor } from '../../server/sequence/wording/index.js';
import { type DiagnosticOptions, diagnosticsOf } from '../../server/service/diagnostics.js';
import type { Reader } from '../../server/service/document.js';
import { DEFAULT_SETTINGS } from '../../server/service/settings.js';
import { OpenText } from '../../server/service/text.js';
import { wordsFor } from '../../server/service/wording/index.js';
import { pair, type Ratio } from './pairs.js';
import { crankText, jsonText, SCHEMA, soundText } from './texts.js';

const FILE = 'file:///bench.crank';
export const READER: Reader = {
  locale: 'en',
  wording: wordingFor('en'),
  words: wordsFor('en'),
  settings: DEFAULT_SETTINGS,
  chosenCase: () => undefined,
};
const OPTIONS: DiagnosticOptions = { related: true, tags: true, links: true, pages: 'file:///reference#{code}' };

/** A document that is open, and a step in its middle whose number changes with every edit. */
function openCrank(text: string): () => number {
  const library = new Library();
  const open = new OpenText(FILE, text);
  library.set(FILE, text);
  let line = open.lines.length >> 1;
  while (!/^ {2}turn \d$/.test(open.lines[line])) line++;
  let round = 0;
  return () => {
    round++;
    const range = { start: { line, character: 7 }, end: { line, character: open.lines[line].length } };
    const edit = open.change({ range, text: String((round % 9) + 1) });
    if (!edit) throw new Error('the text is not kept as lines');
    library.edit(FILE, edit);
    const report = library.check(FILE);
    const tree = library.tree(FILE);
    if (!tree) throw new Error('the file is not known');
    const { lines, eol } = open;
    const document = {
      uri: FILE,
      file: FILE,
      version: round,
      lines,
      eol,
      isMarkdown: false,
      tree,
      library,
      report,
      uriOf: (f: string) => f,
    };
    return diagnosticsOf(document, READER, OPTIONS).length;
  };
}

function openJson(text: string): () => Promise<void> {
  const service = getLanguageService({});
  service.configure({
    validate: true,
    schemas: [{ uri: 'bench://schema', fileMatch: ['*'], schema: SCHEMA as never }],
  });
  let document = TextDocument.create('bench://file.json', 'json', 1, text);
  let line = document.lineCount >> 1;
  const lineText = (n: number) =>
    document.getText({ start: { line: n, character: 0 }, end: { line: n + 1, character: 0 } });
  while (!lineText(line).startsWith('{"n":')) line++;
  let round = 0;
  return async () => {
    round++;
    const range = { start: { line, character: 5 }, end: { line, character: 6 } };
    document = TextDocument.update(document, [{ range, text: String(round % 10) }], round + 1);
    const found = await service.doValidation(document, service.parseJSONDocument(document), {}, SCHEMA as never);
    if (found.length > 0) throw new Error('the JSON of the benchmark is not valid');
  };
}

const times = (work: () => unknown, n: number) => async () => {
  for (let i = 0; i < n; i++) await work();
};

export async function editing(): Promise<Ratio[]> {
  const text = crankText(10_000);
  const results = [
    await pair('edit in 10,000 lines : JSON language service', openCrank(text), openJson(jsonText(text))),
  ];
  // Single edits are too short to be timed one by one.
  for (const [what, make] of [
    ['with a remark on most sequences', crankText],
    ['nothing to remark', soundText],
  ] as const) {
    const long = times(openCrank(make(100_000)), 50);
    const short = times(openCrank(make(1_000)), 50);
    results.push(await pair(`50 edits in 100,000 : in 1,000 lines, ${what}`, long, short, { rounds: 15, warm: 5 }));
  }
  return results;
}
