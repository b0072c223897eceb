/**
 * A bench record bound to its script and machine: which reading each `found` line means, what was noted there, and what
 * the sound machine shows.
 *
 * Invariant: what is noted is compared with the sound machine, never with what the script expects: a slip in an
 * `expect` makes no machine faulty.
 */
import { nearest } from '../../grammar/nearest.js';
import type {
  BenchSection,
  ExpectItem,
  FoundLine,
  MachineSection,
  OnLine,
  SequenceSection,
  Span,
} from '../../grammar/tree.js';
import { hasSignedWheels, type Profile } from '../machine/index.js';
import { unitsExpected } from './expects.js';
import { type Facts, type Finding, placeOn } from './findings.js';
import { type Expecting, expectingsIn, type Look, lookedIn, shownOf, toldOf } from './looks.js';
import { wholeOf } from './readings.js';
import type { Run } from './run.js';

/** One thing that was noted at one `expect`. */
export interface Noted extends Look {
  readonly line: OnLine<FoundLine>;
  readonly item: ExpectItem;
  /** Which `expect`, counted from 0 as they are carried out. */
  readonly at: number;
  /** What the sound machine shows there. */
  readonly sound: Look['shown'];
}

export interface BenchReport {
  readonly section: BenchSection;
  readonly script?: SequenceSection;
  readonly machine?: MachineSection;
  /** The script on the record's machine, sound, with its defaults; missing where it can't be run. */
  readonly run?: Run;
  /** Every `expect` of that run. */
  readonly expectings: readonly Expecting[];
  /** What can be used: named rightly, and possible on this machine. */
  readonly noted: readonly Noted[];
  readonly findings: readonly Finding[];
}

export const isPass = ({ noted }: BenchReport): boolean =>
  noted.length > 0 && noted.every(({ shown, sound }) => shown === sound);

/** What a record stands on; missing where a name is not known, or the machine contradicts itself. */
export interface Grounds {
  readonly script?: SequenceSection;
  readonly machine?: MachineSection;
  readonly run?: Run;
  readonly sequenceNames: () => string[];
  readonly machineNames: () => string[];
}

export function bindBench(section: BenchSection, grounds: Grounds): BenchReport {
  const { script, machine, run } = grounds;
  const findings: Finding[] = [];
  const report = (line: number, span: Span, facts: Facts) => {
    findings.push({ facts, at: placeOn(section, line, span) });
  };
  const { header } = section;
  const unknown = (kind: 'sequence' | 'machine', name: { name: string } & Span, names: () => string[]) => {
    const near = nearest(name.name, names());
    report(0, name, { code: 'unknown-name', kind, name: name.name, ...(near && { nearest: near }) });
  };
  if (header && !script) unknown('sequence', header.of, grounds.sequenceNames);
  if (header && !machine) unknown('machine', header.on, grounds.machineNames);
  const expectings = run ? expectingsIn(run) : [];
  const noted = run && script ? new Binding(run, script, expectings, report).all(section.found) : [];
  return {
    section,
    ...(script && { script }),
    ...(machine && { machine }),
    ...(run && { run }),
    expectings,
    noted,
    findings,
  };
}

/** The lines of a record, one after the other. */
class Binding {
  private readonly profile: Profile;
  /** The first `expect` with each label of the script's own. */
  private readonly labels = new Map<string, number>();
  private readonly seen = new Set<string>();

  constructor(
    run: Run,
    script: SequenceSection,
    private readonly expectings: readonly Expecting[],
    private readonly report: (line: number, span: Span, facts: Facts) => void,
  ) {
    this.profile = run.order.profile;
    for (const [i, { row, step }] of expectings.entries()) {
      if (run.tape.frameAt(row).section !== script) continue;
      for (const { label } of step.syntax.items) {
        if (label && !this.labels.has(label.name)) this.labels.set(label.name, i);
      }
    }
  }

  all(lines: BenchSection['found']): Noted[] {
    return lines.flatMap((line) => {
      const at = this.which(line);
      return at === undefined ? [] : line.syntax.items.flatMap((item) => this.noted(line, item, at) ?? []);
    });
  }

  private which({ line, syntax: { which } }: OnLine<FoundLine>): number | undefined {
    const { labels, expectings } = this;
    if (which.kind === 'name') {
      const at = labels.get(which.name);
      if (at !== undefined) return at;
      const near = nearest(which.name, labels.keys());
      this.report(line, which, {
        code: 'unknown-name',
        kind: 'label',
        name: which.name,
        ...(near && { nearest: near }),
      });
      return undefined;
    }
    const number = wholeOf(which);
    if (number !== undefined && number >= 1 && number <= expectings.length) return number - 1;
    this.report(line, which, { code: 'no-such-reading', number: which.text, readings: expectings.length });
    return undefined;
  }

  private noted(line: OnLine<FoundLine>, item: ExpectItem, at: number): Noted | undefined {
    const { profile } = this;
    const what = lookedIn(item);
    if ((what === 'counter' && profile.counter === 0) || (what === 'bell' && !profile.bell)) {
      this.report(line.line, item, { code: 'not-on-this-machine', device: what, machine: profile.name });
      return undefined;
    }
    const shown = this.shownBy(line, item, at);
    if (shown === undefined) return undefined;
    const sound = shownOf(what, this.expectings[at], profile);
    const key = `${at} ${what}`;
    if (this.seen.has(key)) {
      this.report(line.line, item, { code: 'found-twice', what });
      return undefined;
    }
    this.seen.add(key);
    if (shown !== sound) {
      this.report(line.line, item, { code: 'found-differs', what, found: toldOf(shown), sound: toldOf(sound) });
    }
    return { line, item, at, what, shown, sound };
  }

  /** What the item says was shown; reported where the machine can't show that. */
  private shownBy({ line }: OnLine<FoundLine>, item: ExpectItem, at: number): Look['shown'] | undefined {
    const { profile } = this;
    if (item.kind !== 'register' && item.kind !== 'carriage') return item.isAbsent !== true;
    const number = item.kind === 'register' ? item.figures : item.position;
    const what = item.kind === 'register' ? item.register : item.kind;
    if (number.kind === 'name') {
      this.report(line, number, { code: 'unknown-name', kind: 'parameter', name: number.name });
      return undefined;
    }
    const places = profile[what];
    if (item.kind === 'carriage') {
      const position = wholeOf(number);
      if (position !== undefined && position <= places) return position;
    } else {
      const units = unitsExpected(number, item.negative, this.expectings[at].state, profile, item.register);
      const end = 10n ** BigInt(places);
      const lowest = hasSignedWheels(profile, item.register) ? -end : -1n;
      if (units !== undefined && units > lowest && units < end) return units;
    }
    this.report(line, number, { code: 'found-impossible', what, number: number.text, places });
    return undefined;
  }
}
