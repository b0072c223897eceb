/** Gathers what is noticed in a run: once a step, at its worst, with the number of times. */
import type { Section, Step } from '../../grammar/tree.js';
import { CODES, type Code, type Facts, type Finding, type Place, placeOn, type Related, rankOf } from './findings.js';

/** Where a step stands in the sequence that is run, and in which other sequence it is written, if it comes by `run`. */
export interface Site {
  readonly step: Step;
  readonly within?: { readonly section: Section; readonly step: Step };
}

interface Noted {
  readonly site: Site;
  facts: Facts;
  /** How often the step was carried out with this result. */
  rounds: number;
  readonly related: readonly Related[];
}

/** Of these pairs a step gets only the first. */
const WORSE: Partial<Record<Code, Code>> = {
  'overflow-restored': 'result-overflow',
  'overdraw-restored': 'result-overdraw',
};

export class Notices {
  private readonly noted = new Map<Step, Map<Code, Noted>>();

  /**
   * Notes a fact. What comes out of another sequence's steps is noted at the `run` step, if it is an error or a
   * warning: lesser things are told where those steps are written.
   */
  note(site: Site, facts: Facts, related: readonly Related[] = []): void {
    if (site.within && rankOf(CODES[facts.code]) > 1) return;
    let ofStep = this.noted.get(site.step);
    if (!ofStep) {
      ofStep = new Map();
      this.noted.set(site.step, ofStep);
    }
    const known = ofStep.get(facts.code);
    if (!known) {
      ofStep.set(facts.code, { site, facts, rounds: 1, related });
      return;
    }
    known.rounds++;
    if ('times' in known.facts && 'times' in facts) {
      // Too many turns are those of one step; all else adds up over the rounds.
      const times =
        facts.code === 'many-turns' ? Math.max(known.facts.times, facts.times) : known.facts.times + facts.times;
      known.facts = { ...known.facts, times } as Facts;
    }
  }

  /** Whether anything more than a hint was noticed at a step. */
  isGrave(step: Step): boolean {
    if (this.noted.size === 0) return false;
    const ofStep = this.noted.get(step);
    return ofStep !== undefined && [...ofStep.keys()].some((code) => CODES[code] !== 'hint');
  }

  /** The findings, in no particular order. */
  findings(section: Section, sequence: string, runCase: number): Finding[] {
    const findings: Finding[] = [];
    for (const [step, ofStep] of this.noted) {
      for (const [code, { site, facts, rounds, related }] of ofStep) {
        const worse = WORSE[code];
        if (worse && ofStep.has(worse)) continue;
        const inner: Related[] = site.within
          ? [{ at: placeOf(site.within.section, site.within.step), why: 'in-the-sequence' }]
          : [];
        const all = [...inner, ...related];
        const counted = rounds > 1 && !('times' in facts) ? { rounds } : {};
        const at = placeOf(section, step);
        findings.push({ facts, at, sequence, case: runCase, ...counted, ...(all.length > 0 && { related: all }) });
      }
    }
    return findings;
  }
}

const placeOf = (section: Section, { line, syntax }: Step): Place => placeOn(section, line, syntax);
