/** Fixes for the lines of a machine that contradict themselves or one another. */
import type { TextEdit } from 'vscode-languageserver';
import { nearest } from '../../../grammar/nearest.js';
import { print } from '../../../grammar/printer.js';
import { wordsOf } from '../../../grammar/tokens.js';
import type { MachineSection, NumberSyntax, OnLine, ProfileSyntax } from '../../../grammar/tree.js';
import { MOST_PLACES } from '../../machine/index.js';
import { INDENT } from './edits.js';
import type { Around, Fix, Subject } from './subject.js';

export function profileFixes(subject: Subject<'bad-profile'>): Fix[] {
  const { draft, at, facts, words, document } = subject;
  const { problem } = facts;
  const section = draft.section as MachineSection;
  const entry = section.entries.find(({ line, syntax }) => line === at.line && syntax.from === at.syntax.from);
  const { lines } = document.library.machine(section);
  const placesOf = (kind: 'setting' | 'result' | 'counter'): number | undefined => {
    const line = lines.get(kind);
    const number = line && 'places' in line ? Number(line.places.figures) : undefined;
    return number !== undefined && number >= 1 && number <= MOST_PLACES ? number : undefined;
  };
  switch (problem.is) {
    case 'twice': {
      if (!entry) return [];
      const first = section.entries.find(({ syntax }) => syntax.kind === entry.syntax.kind);
      const isSame = first !== undefined && print(first.syntax) === print(entry.syntax);
      const fix = { title: words.leaveOut(print(entry.syntax)), edits: [draft.remove(entry)] };
      return [{ ...fix, isPreferred: true, isSafe: isSame }];
    }
    case 'no-such-line':
      return entry ? unknownLine(subject, entry) : [];
    case 'out-of-range':
      return entry ? [withinRange(subject, entry, problem.lowest, problem.highest)] : [];
    case 'missing': {
      const setting = placesOf('setting') ?? 9;
      const counter = placesOf('counter') ?? 0;
      const result = Math.max(setting, Math.min(MOST_PLACES, setting + (counter || setting)));
      const line = problem.line === 'setting' ? `setting ${Math.min(9, placesOf('result') ?? 9)}` : `result ${result}`;
      return [added(subject, line)];
    }
    case 'reach-below-setting':
    case 'result-below-setting': {
      const setting = placesOf('setting');
      const line = entry?.syntax ?? lines.get('result');
      if (setting === undefined || line?.kind !== 'result') return [];
      const number = problem.is === 'reach-below-setting' ? line.reach : line.places;
      if (!number) return [];
      if (entry) return [changed(subject, entry, number, setting)];
      const raised = { ...number, text: String(setting) };
      return [added(subject, print({ ...line, ...(number === line.reach ? { reach: raised } : { places: raised }) }))];
    }
    case 'carriage-past-result': {
      const result = placesOf('result');
      if (result === undefined) return [];
      if (entry?.syntax.kind === 'carriage') return [changed(subject, entry, entry.syntax.places, result)];
      return [added(subject, `carriage ${result}`)];
    }
    case 'divide-needs-lever': {
      const ways = lines.get('subtract');
      const own = section.entries.find(({ syntax }) => syntax === ways);
      const lever = 'subtract lever';
      const first: Fix = own
        ? { title: words.changeTo(lever), edits: [draft.replace(own, lever)] }
        : added(subject, lever);
      const drop: Fix[] = entry ? [{ title: words.leaveOut(print(entry.syntax)), edits: [draft.remove(entry)] }] : [];
      return [first, ...drop];
    }
  }
}

/** A further line of the machine, right below its header. */
function added({ draft, words }: Around, line: string): Fix {
  const body = draft.section as MachineSection;
  const margin =
    body.entries[0] && body.entries[0].line > 0 ? draft.margin(body.entries[0].line) : draft.margin(0) + INDENT;
  return { title: words.add(line), edits: [draft.linesAfter(0, [line], margin)] };
}

function changed({ draft, words }: Around, { line }: OnLine<ProfileSyntax>, number: NumberSyntax, to: number): Fix {
  const text = String(to);
  return { title: words.changeTo(text), edits: [draft.replace({ line, syntax: number }, text)], isPreferred: true };
}

/** The nearest line that there is, or none. */
function unknownLine({ draft, facts, words }: Subject<'bad-profile'>, entry: OnLine<ProfileSyntax>): Fix[] {
  const { problem } = facts;
  const remove: Fix = { title: words.leaveOut(print(entry.syntax)), edits: [draft.remove(entry)], isPreferred: true };
  if (problem.is !== 'no-such-line') return [];
  const near = nearest(
    problem.line,
    wordsOf('machine').filter((word) => word !== 'no'),
  );
  if (!near) return [remove];
  const line = `no ${near === 'park' ? 'park left' : near}`;
  return [
    { title: words.changeTo(line), edits: [draft.replace(entry, line)], isPreferred: true },
    { ...remove, isPreferred: false },
  ];
}

/** Every number of the line that is too small, too large or not whole becomes the nearest one that may stand there. */
function withinRange({ draft, words }: Around, entry: OnLine<ProfileSyntax>, lowest: number, highest: number): Fix {
  const { line, syntax } = entry;
  const edits: TextEdit[] = [];
  const titles: string[] = [];
  for (const number of numbersOf(syntax)) {
    const value = Number(number.text.replace(/[_']/g, ''));
    if (!number.isValue && value >= lowest && value <= highest) continue;
    const text = String(Math.min(highest, Math.max(lowest, Math.round(value))));
    titles.push(text);
    edits.push(draft.replace({ line, syntax: number }, text));
  }
  return { title: words.changeTo(titles.join(', ')), edits, isPreferred: true };
}

/** The numbers that a line is out of range by: what is said of `result` with a reach may be either. */
function numbersOf(line: ProfileSyntax): NumberSyntax[] {
  switch (line.kind) {
    case 'setting':
    case 'carriage':
    case 'counter':
      return [line.places];
    case 'result':
      return line.reach ? [line.places, line.reach] : [line.places];
    case 'effort':
      return [line.turn, line.shift, line.lever];
    case 'transfer':
      return line.at ? [line.at] : [];
    default:
      return [];
  }
}
