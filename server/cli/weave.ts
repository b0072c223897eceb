/** `cranknote weave`: fills the insets of Markdown pages from their sequences. */
import { finish } from '../../grammar/gradual.js';
import { readText, STANDARD_INPUT } from '../disk.js';
import { isMarkdown } from '../sequence/library.js';
import { type ReportedFinding, reportFindings } from '../sequence/report.js';
import { insetsIn, withInsets } from '../weave/findings.js';
import type { WovenInset } from '../weave/page.js';
import { insetEdit, pageWith } from '../weave/written.js';
import { type Checked, checkEntries } from './checked.js';
import { CannotRun, type Entry, findEntries, knownAs } from './files.js';
import { oneByOne } from './one-by-one.js';
import { Source } from './output/excerpt.js';
import { findingText } from './output/text.js';
import { type PictureState, pictureState, writePicture } from './pictures.js';
import { harmless, type Terminal } from './terminal.js';
import { writeWhole } from './writing.js';

export interface WeaveOptions {
  /** Only say what has gone stale. */
  readonly check?: boolean;
}

/** What became of a page: how many insets it has, how many of them were or would be written, how many can't be. */
interface Outcome {
  readonly insets: number;
  readonly stale: number;
  readonly bad: number;
  /** It can't be written. */
  readonly isUnwritten: boolean;
}

/**
 * Returns the exit code: 0 done (or nothing to do), 1 if an inset can't be filled, or with `check` if one is stale, 2
 * can't run, 130 interrupted: then every file is either woven or as it was.
 */
export async function weave(paths: readonly string[], options: WeaveOptions, terminal: Terminal): Promise<number> {
  const { check = false } = options;
  const entries = pagesIn(paths);
  const checked = checkEntries(entries, terminal);
  const pages = entries.filter((entry) => checked.files.has(knownAs(entry)));
  const outcomes: Outcome[] = [];
  const isInterrupted = await oneByOne(pages, 'pages woven', terminal, (entry) => {
    outcomes.push(new Page(entry, checked, check, terminal).weave());
  });
  if (isInterrupted) {
    const done = `after ${outcomes.length} of ${pages.length} pages`;
    terminal.err(`Interrupted ${done}. ${check ? 'No file was changed' : 'The others are as they were'}.\n`);
    return 130;
  }
  const sum = (of: 'insets' | 'stale' | 'bad') => outcomes.reduce((all, outcome) => all + outcome[of], 0);
  if (checked.unreadable > 0 || outcomes.some(({ isUnwritten }) => isUnwritten)) return 2;
  terminal.err(lastLine(sum('insets'), sum('stale'), sum('bad'), check));
  return sum('bad') > 0 || (check && sum('stale') > 0) ? 1 : 0;
}

const count = (n: number): string => `${n} ${n === 1 ? 'inset' : 'insets'}`;

function lastLine(insets: number, stale: number, bad: number, check: boolean): string {
  if (insets === 0) return 'There is no inset: no comment such as <!-- crank: readings -->.\n';
  const parts = [
    stale > 0 && (check ? `${stale} stale` : `${stale} filled`),
    bad > 0 && `${bad} can't be filled`,
    insets - stale - bad > 0 && `${insets - stale - bad} fresh`,
  ];
  return `${count(insets)}: ${parts.filter(Boolean).join(', ')}.\n`;
}

/** The Markdown pages among what is named. Standard input is one. */
function pagesIn(paths: readonly string[]): Entry[] {
  const entries = findEntries(paths.length > 0 ? paths : ['.']).map((entry) =>
    entry.file === STANDARD_INPUT ? { ...entry, as: `${STANDARD_INPUT}.md` } : entry,
  );
  const pages = entries.filter((entry) => isMarkdown(knownAs(entry)));
  if (pages.length > 0) return pages;
  throw new CannotRun(
    'There is no Markdown page in what was named: only files that end in .md or .markdown have insets.',
  );
}

/** One page and its insets. */
class Page {
  private readonly name: string;
  private readonly text: string;
  private readonly findings: readonly ReportedFinding[];
  private readonly insets: readonly WovenInset[];
  private readonly source: Source;

  constructor(
    private readonly entry: Entry,
    { library, files, reports }: Checked,
    private readonly check: boolean,
    private readonly terminal: Terminal,
  ) {
    this.name = knownAs(entry);
    this.text = files.get(this.name) ?? '';
    this.source = new Source(files);
    const report = reports.find(({ file }) => file === this.name) ?? library.check(this.name);
    const woven = finish(withInsets(library, report));
    this.insets = insetsIn(woven);
    this.findings = reportFindings(library, woven).filter(({ code }) => code === 'stale-inset' || code === 'bad-inset');
  }

  weave(): Outcome {
    const { insets, check } = this;
    const bad = new Set(insets.filter(({ state }) => state.is === 'bad'));
    const pictures = new Map<WovenInset, PictureState[]>();
    for (const inset of insets) {
      if (inset.state.is === 'bad') continue;
      const { content } = inset.state;
      if (content.pictures.length === 0) continue;
      if (this.entry.file === STANDARD_INPUT) {
        this.say(inset, 'A figure is a file beside its page, and standard input has none beside it.');
        bad.add(inset);
        continue;
      }
      const states = content.pictures.map((picture) => pictureState(this.entry.file, picture));
      pictures.set(inset, states);
      const taken = states.find(({ is }) => is === 'taken');
      if (taken?.is !== 'taken') continue;
      this.say(
        inset,
        `${harmless(taken.file)} is there already and was not made for this inset. Give it another name.`,
      );
      bad.add(inset);
    }
    this.tell('bad-inset');
    const isStale = (inset: WovenInset) =>
      !bad.has(inset) && (inset.state.is === 'stale' || pictures.get(inset)?.some(({ is }) => is === 'stale') === true);
    const stale = insets.filter(isStale);
    const isUnwritten = check ? this.compare(stale, pictures) : this.write(stale, pictures);
    return { insets: insets.length, stale: stale.length, bad: bad.size, isUnwritten };
  }

  /** What would be written. */
  private compare(stale: readonly WovenInset[], pictures: ReadonlyMap<WovenInset, readonly PictureState[]>): false {
    this.tell('stale-inset');
    for (const inset of stale) {
      if (inset.state.is !== 'fresh') continue;
      for (const picture of pictures.get(inset) ?? []) {
        if (picture.is === 'stale') this.say(inset, `${harmless(picture.file)} is missing or out of date.`);
      }
    }
    return false;
  }

  /** Returns whether something could not be written. */
  private write(stale: readonly WovenInset[], pictures: ReadonlyMap<WovenInset, readonly PictureState[]>): boolean {
    const edits = stale.flatMap(({ inset, state }) =>
      state.is === 'stale' ? [insetEdit({ inset }, state.content)] : [],
    );
    const text = pageWith(this.text, edits);
    const { file } = this.entry;
    const { out, err } = this.terminal;
    if (file === STANDARD_INPUT) {
      out(text);
      return false;
    }
    const now = readText(file);
    if (!('text' in now && now.text === this.text)) {
      err(`${harmless(file)} has been changed meanwhile and is left as it is.\n`);
      return true;
    }
    let writing = file;
    try {
      // The page comes last: it never shows a picture that is not there.
      for (const picture of stale.flatMap((inset) => pictures.get(inset) ?? [])) {
        if (picture.is !== 'stale') continue;
        writing = picture.file;
        writePicture(picture);
      }
      writing = file;
      if (text !== this.text) writeWhole(file, text);
    } catch {
      err(`${harmless(writing)} can't be written and is left as it was.\n`);
      return true;
    }
    if (stale.length > 0) out(`${harmless(file)}: ${count(stale.length)} filled.\n`);
    return false;
  }

  /** Findings of a code, as `check` tells them. */
  private tell(code: ReportedFinding['code']): void {
    for (const finding of this.findings) {
      if (finding.code === code) this.terminal.err(`${findingText(finding, this.source, this.terminal)}\n`);
    }
  }

  private say({ inset }: WovenInset, message: string): void {
    this.terminal.err(`${harmless(this.name)}:${inset.line + 1}:${inset.at.from + 1}  ${message}\n`);
  }
}
