/**
 * Tests read as examples: a few lines of notation, with the findings that a line must have marked behind it.
 *
 *     turn 12        #! many-turns
 *     shift left     #! carriage-end
 */
import { expect } from 'vitest';
import { finish } from '../grammar/gradual.js';
import type { FileReport } from '../server/sequence/file.js';
import { CODES, rankOf, type Severity } from '../server/sequence/findings.js';
import { Library } from '../server/sequence/library.js';
import { type ReportedFinding, reportFindings } from '../server/sequence/report.js';
import { withInsets } from '../server/weave/findings.js';

export interface Checked {
  readonly library: Library;
  readonly report: FileReport;
  readonly findings: readonly ReportedFinding[];
}

/** Files by name; the first is the one that is checked. */
export function checkFiles(files: Readonly<Record<string, string>>): Checked {
  const library = new Library();
  for (const [file, text] of Object.entries(files)) library.set(file, text);
  const [file] = Object.keys(files);
  const report = finish(withInsets(library, library.check(file)));
  return { library, report, findings: reportFindings(library, report) };
}

export const checkText = (text: string): Checked => checkFiles({ 'test.crank': text });

/**
 * Checks a text and holds every line's findings, down to a level, against the codes marked behind it with `#!`. Lines
 * without a mark must have none. On a Markdown page a comment of its own, `<!-- #! code -->`, marks the line below it.
 */
export function expectMarked(text: string, { level = 'hint' as Severity, others = {}, isPage = false } = {}): Checked {
  const checked = checkFiles({ [isPage ? 'test.md' : 'test.crank']: text, ...others });
  const marked: string[] = [];
  for (const [i, line] of text.split('\n').entries()) {
    const codes = /#!(.*)$/.exec(line)?.[1].match(/[a-z][a-z-]*/g) ?? [];
    for (const code of codes) {
      if (!(code in CODES)) throw new Error(`${code} is no finding (line ${i + 1} of the test's text)`);
      marked.push(`${/<!--\s*#!/.test(line) ? i + 2 : i + 1} ${code}`);
    }
  }
  const found = checked.findings
    .filter(({ severity }) => rankOf(severity) <= rankOf(level))
    .map((f) => `${f.line} ${f.code}`);
  expect(found.sort()).toEqual(marked.sort());
  return checked;
}
