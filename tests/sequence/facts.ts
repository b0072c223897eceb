/** One example at least of everything that a finding can say. The types see to it that nothing is missing. */
import { INSET_KINDS } from '../../grammar/insets.js';
import type { SyntaxProblem } from '../../grammar/tree.js';
import type {
  Code,
  Device,
  Differs,
  Facts,
  FileProblem,
  GoalProblem,
  InsetFault,
  NameKind,
  ProfileProblem,
} from '../../server/sequence/findings.js';

type TooLong = Extract<Facts, { code: 'too-long' }>['what'];
type WhyWrong = Extract<Facts, { code: 'wrong-arguments' }>['why'];
type Engaged = Extract<Facts, { code: 'left-engaged' }>['what'][number];

/** Examples of each variant of a union, by its `is`. */
type ByIs<U extends { readonly is: string }> = { readonly [I in U['is']]: readonly (U & { readonly is: I })[] };
const all = <T>(byKind: Readonly<Record<string, readonly T[]>>): T[] => Object.values(byKind).flat();
/** Every name of a union of names. */
const names = <N extends string>(record: Readonly<Record<N, true>>): N[] => Object.keys(record) as N[];

const SYNTAX: ByIs<SyntaxProblem> = {
  'not-a-step': [
    { is: 'not-a-step', found: 'trun', nearest: 'turn' },
    { is: 'not-a-step', found: 'polish' },
  ],
  'not-a-line': [
    { is: 'not-a-line', found: 'bel', nearest: 'bell' },
    { is: 'not-a-line', found: 'paint' },
  ],
  'not-a-section': [
    { is: 'not-a-section', found: 'sequenze', nearest: 'sequence' },
    { is: 'not-a-section', found: 'sequence' },
  ],
  'no-section': [{ is: 'no-section', found: 'turn' }],
  'wrong-section': [
    { is: 'wrong-section', found: 'reach', belongs: 'machine' },
    { is: 'wrong-section', found: 'turn', belongs: 'sequence' },
    { is: 'wrong-section', found: 'found', belongs: 'bench' },
  ],
  form: [
    { is: 'form', word: 'divide', found: '2,5', forms: ['divide [to K] [short]'] },
    { is: 'form', word: 'count', found: '', forms: ['count plus', 'count minus'] },
  ],
  'keyword-as-name': [{ is: 'keyword-as-name', found: 'result' }],
  'unclosed-text': [{ is: 'unclosed-text' }],
  'text-escape': [{ is: 'text-escape' }],
  'unclosed-brace': [{ is: 'unclosed-brace' }],
  'stray-brace': [{ is: 'stray-brace' }],
  'line-too-long': [{ is: 'line-too-long' }],
  'too-deep': [{ is: 'too-deep' }],
  'number-point': [{ is: 'number-point' }],
};

const PROFILE: ByIs<ProfileProblem> = {
  'out-of-range': [
    { is: 'out-of-range', line: 'setting', lowest: 2, highest: 20 },
    { is: 'out-of-range', line: 'effort', lowest: 0, highest: 1_000_000 },
    { is: 'out-of-range', line: 'transfer result', lowest: 1, highest: 1 },
  ],
  missing: [{ is: 'missing', line: 'setting' }],
  'reach-below-setting': [{ is: 'reach-below-setting', line: 'result' }],
  'result-below-setting': [{ is: 'result-below-setting', line: 'result' }],
  'carriage-past-result': [{ is: 'carriage-past-result', line: 'carriage' }],
  'divide-needs-lever': [{ is: 'divide-needs-lever', line: 'auto-divide' }],
  twice: [{ is: 'twice', line: 'bell' }],
  'no-such-line': [{ is: 'no-such-line', line: 'gong' }],
};

const WRONG: ByIs<WhyWrong> = {
  'too-many': [{ is: 'too-many', name: 'watering', takes: 2, given: 3 }],
  'not-whole': [{ is: 'not-whole', number: '1.5' }],
  'value-with-at': [{ is: 'value-with-at', number: '2.5' }],
  'out-of-range': [{ is: 'out-of-range', number: '1_000', lowest: 0, highest: 999 }],
  'divide-to': [{ is: 'divide-to', position: 2, to: 3 }],
};

const DIFFERS: ByIs<Differs> = {
  register: [
    { is: 'register', register: 'result', expected: '421.40', reading: '421.30', place: 2 },
    { is: 'register', register: 'counter', expected: '172', reading: '72', place: 3 },
    { is: 'register', register: 'setting', expected: '24.57', reading: '24.5' },
  ],
  carriage: [
    { is: 'carriage', expected: '2', reading: 3 },
    { is: 'carriage', expected: '2', reading: 0 },
  ],
  bell: [{ is: 'bell' }],
  overflow: [{ is: 'overflow' }],
  overdraw: [{ is: 'overdraw' }],
  parked: [{ is: 'parked' }],
};

const NAME_KINDS = names<NameKind>({ machine: true, sequence: true, parameter: true, label: true });
const FILES = names<FileProblem>({
  missing: true,
  outside: true,
  'not-relative': true,
  folder: true,
  unreadable: true,
  'too-large': true,
  'not-text': true,
});
const GOALS = names<GoalProblem>({
  'divides-by-zero': true,
  'root-of-negative': true,
  'power-not-whole': true,
  'too-large': true,
  'unknown-name': true,
});
const DEVICES = names<Device>({
  mode: true,
  count: true,
  'auto-clear': true,
  'auto-divide': true,
  dial: true,
  'transfer result': true,
  'transfer counter': true,
  'shift out': true,
  'half steps': true,
  counter: true,
  bell: true,
  subtract: true,
});
const LIMITS = names<TooLong>({
  steps: true,
  turns: true,
  nesting: true,
  findings: true,
  'file-steps': true,
  'file-turns': true,
});
const ENGAGED = names<Engaged>({ subtract: true, minus: true, 'auto-clear': true, 'auto-divide': true });

const INSETS: ByIs<InsetFault> = {
  'no-kind': [{ is: 'no-kind' }],
  'unknown-kind': [
    { is: 'unknown-kind', word: 'redings', nearest: 'readings' },
    { is: 'unknown-kind', word: 'prices' },
  ],
  'unknown-word': [
    { is: 'unknown-word', word: 'off', nearest: 'of' },
    { is: 'unknown-word', word: 'please' },
  ],
  'bad-figures': [
    { is: 'bad-figures', word: 'al', nearest: 'all' },
    { is: 'bad-figures', word: 'many' },
  ],
  'no-value': [{ is: 'no-value', word: 'of' }],
  twice: [{ is: 'twice', word: 'case' }],
  'bad-case': [{ is: 'bad-case', word: 'first' }],
  'not-alone': [{ is: 'not-alone' }],
  'in-html': [{ is: 'in-html' }],
  'text-below': [{ is: 'text-below' }],
  'stray-end': [{ is: 'stray-end' }],
  nested: [{ is: 'nested' }],
  'too-many': [{ is: 'too-many', limit: 500 }],
  'no-sequence': [{ is: 'no-sequence' }],
  'unknown-sequence': [
    { is: 'unknown-sequence', name: 'bulb-orders', nearest: 'bulb-order' },
    { is: 'unknown-sequence', name: 'trays' },
  ],
  'no-case': [
    { is: 'no-case', name: 'bulb-order', number: 4, cases: 0 },
    { is: 'no-case', name: 'bulb-order', number: 4, cases: 2 },
  ],
  'unknown-language': [{ is: 'unknown-language', language: 'la', known: ['en', 'de'] }],
  'has-errors': [{ is: 'has-errors', name: 'bulb-order' }],
  'not-run': [{ is: 'not-run', name: 'bulb-order' }],
  'too-long': [{ is: 'too-long', name: 'bulb-order' }],
  'by-hand': [{ is: 'by-hand' }],
  'lost-end': [{ is: 'lost-end' }],
};

export const FACTS: { readonly [C in Code]: readonly (Facts & { readonly code: C })[] } = {
  syntax: all<SyntaxProblem>(SYNTAX).map((problem) => ({ code: 'syntax', problem })),
  'unknown-name': [
    ...NAME_KINDS.map((kind) => ({ code: 'unknown-name', kind, name: 'gardem', nearest: 'garden' }) as const),
    ...NAME_KINDS.map((kind) => ({ code: 'unknown-name', kind, name: 'orchard' }) as const),
    { code: 'unknown-name', kind: 'parameter', name: 'rows-beds' },
  ],
  'duplicate-name': NAME_KINDS.map((kind) => ({ code: 'duplicate-name', kind, name: 'peat' })),
  'no-machine': [
    { code: 'no-machine', visible: 0 },
    { code: 'no-machine', visible: 2 },
  ],
  'file-not-found': FILES.map((why) => ({ code: 'file-not-found', path: '../prices/spring.crank', why })),
  'sequence-cycle': [
    { code: 'sequence-cycle', by: 'run', name: 'water-beds' },
    { code: 'sequence-cycle', by: 'use', name: 'pots.crank' },
    { code: 'sequence-cycle', by: 'like', name: 'annex' },
  ],
  'bad-profile': all<ProfileProblem>(PROFILE).map((problem) => ({ code: 'bad-profile', problem })),
  'wrong-arguments': all<WhyWrong>(WRONG).map((why) => ({ code: 'wrong-arguments', why })),
  'setting-too-long': [
    { code: 'setting-too-long', figures: '1250000', at: 1, places: 6 },
    { code: 'setting-too-long', figures: '125', at: 5, places: 6 },
  ],
  'dial-too-long': [
    { code: 'dial-too-long', figures: '12345678901', at: 1, places: 10 },
    { code: 'dial-too-long', figures: '88', at: 10, places: 10 },
  ],
  'places-overlap': [{ code: 'places-overlap', place: 3 }],
  'no-such-place': [
    { code: 'no-such-place', register: 'setting', place: '7', places: 6 },
    { code: 'no-such-place', register: 'counter', place: '6', places: 5 },
    { code: 'no-such-place', register: 'result', place: '0', places: 10 },
    { code: 'no-such-place', register: 'carriage', place: '9', places: 8 },
    { code: 'no-such-place', register: 'counter', place: '9', places: 8, isDecimals: true },
    { code: 'no-such-place', register: 'result', place: '1.5', places: 10, isDecimals: true },
  ],
  'too-many-decimals': [
    { code: 'too-many-decimals', register: 'setting', number: '12.75', marker: 1 },
    { code: 'too-many-decimals', register: 'counter', number: '0.125', marker: 0 },
    { code: 'too-many-decimals', register: 'result', number: '3.14', marker: 1 },
  ],
  'not-on-this-machine': DEVICES.map((device) => ({ code: 'not-on-this-machine', device, machine: 'gate' })),
  'one-way-crank': [
    { code: 'one-way-crank', machine: 'office', subtracts: true },
    { code: 'one-way-crank', machine: 'gate', subtracts: false },
  ],
  'carriage-end': [
    { code: 'carriage-end', at: 8, positions: 8, wanted: '' },
    { code: 'carriage-end', at: 0, positions: 8, wanted: '' },
    { code: 'carriage-end', at: 3, positions: 8, wanted: '12' },
    { code: 'carriage-end', at: 0, positions: 8, wanted: '12' },
  ],
  'carriage-parked': [
    { code: 'carriage-parked', times: 0 },
    { code: 'carriage-parked', times: 3 },
  ],
  'result-overflow': [
    { code: 'result-overflow', turn: 3, times: 2, places: 10 },
    { code: 'result-overflow', turn: 0, times: 2, places: 10 },
  ],
  'result-overdraw': [
    { code: 'result-overdraw', turn: 3, times: 2, places: 10 },
    { code: 'result-overdraw', turn: 0, times: 2, places: 10 },
  ],
  'overflow-restored': [
    { code: 'overflow-restored', turn: 3, times: 1, places: 10 },
    { code: 'overflow-restored', turn: 0, times: 1, places: 10 },
  ],
  'overdraw-restored': [
    { code: 'overdraw-restored', turn: 3, times: 1, places: 10 },
    { code: 'overdraw-restored', turn: 0, times: 1, places: 10 },
  ],
  'digits-off-end': [{ code: 'digits-off-end', times: 2, position: 5, places: 8 }],
  'carry-short': [
    { code: 'carry-short', turn: 3, times: 1, place: 6 },
    { code: 'carry-short', turn: 3, times: 2, place: 6 },
  ],
  'counter-overflow': [
    { code: 'counter-overflow', turn: 10, times: 1, places: 5, wheel: 2 },
    { code: 'counter-overflow', turn: 10, times: 1, places: 5 },
  ],
  'counter-underflow': [
    { code: 'counter-underflow', turn: 2, times: 1, places: 5, wheel: 3 },
    { code: 'counter-underflow', turn: 2, times: 1, places: 5 },
  ],
  'turn-not-counted': [{ code: 'turn-not-counted', times: 3, position: 6, places: 5 }],
  'divide-in-add-mode': [{ code: 'divide-in-add-mode', times: 1 }],
  'auto-clear-repeat': [{ code: 'auto-clear-repeat', times: 3 }],
  'never-overdraws': [
    { code: 'never-overdraws', why: 'adds' },
    { code: 'never-overdraws', why: 'too-many' },
    { code: 'never-overdraws', why: 'stays-below' },
  ],
  'never-stops': [
    { code: 'never-stops', why: 'off' },
    { code: 'never-stops', why: 'too-many' },
  ],
  'too-long': LIMITS.map((what) => ({ code: 'too-long', what, limit: 1_000_000 })),
  'transfer-position': [
    { code: 'transfer-position', position: 0 },
    { code: 'transfer-position', position: 3 },
  ],
  'transfer-onto-setting': [{ code: 'transfer-onto-setting', setting: '00240' }],
  'transfer-loses-digits': [
    { code: 'transfer-loses-digits', register: 'result', reading: '0012345678' },
    { code: 'transfer-loses-digits', register: 'counter', reading: '54321' },
  ],
  'quotient-as-complement': [{ code: 'quotient-as-complement' }],
  'points-disagree': [{ code: 'points-disagree', setting: 2, counter: 4, result: 3 }],
  'reading-differs': all<Differs>(DIFFERS).map((differs) => ({ code: 'reading-differs', differs })),
  'goal-missed': [
    { code: 'goal-missed', register: 'result', why: { is: 'differs', goal: '421.4', reading: '421.30' } },
    { code: 'goal-missed', register: 'counter', why: { is: 'differs', goal: '17.2', reading: '17.0' } },
    ...GOALS.map((is) => ({ code: 'goal-missed', register: 'result', why: { is } }) as const),
  ],
  'no-such-reading': [
    { code: 'no-such-reading', number: '9', readings: 0 },
    { code: 'no-such-reading', number: '9', readings: 1 },
    { code: 'no-such-reading', number: '9', readings: 8 },
  ],
  'found-impossible': [
    { code: 'found-impossible', what: 'result', number: '123456', places: 5 },
    { code: 'found-impossible', what: 'carriage', number: '9', places: 4 },
  ],
  'found-twice': [
    { code: 'found-twice', what: 'counter' },
    { code: 'found-twice', what: 'bell' },
  ],
  'found-differs': [
    { code: 'found-differs', what: 'result', found: '12', sound: '13' },
    { code: 'found-differs', what: 'bell', found: false, sound: true },
    { code: 'found-differs', what: 'carriage', found: 0, sound: 1 },
  ],
  'idle-turn': [{ code: 'idle-turn', times: 3 }],
  'many-turns': [{ code: 'many-turns', times: 12 }],
  'assumes-clear': [
    { code: 'assumes-clear', registers: ['counter'] },
    { code: 'assumes-clear', registers: ['setting', 'counter', 'result'] },
  ],
  'left-engaged': [
    ...ENGAGED.map((what) => ({ code: 'left-engaged', what: [what] }) as const),
    { code: 'left-engaged', what: ENGAGED },
  ],
  unused: [
    { code: 'unused', kind: 'machine', name: 'cellar' },
    { code: 'unused', kind: 'parameter', name: 'rows' },
  ],
  'shorter-sequence': [
    {
      code: 'shorter-sequence',
      count: 1,
      effort: { turns: 9, shifts: 0, levers: 0, cost: 9 },
      steps: ['shift right', 'turn', 'shift left', 'turn back'],
      shorter: { turns: 2, shifts: 2, levers: 0, cost: 4 },
    },
    {
      code: 'shorter-sequence',
      count: 5,
      effort: { turns: 1200, shifts: 2, levers: 1, cost: 1204 },
      steps: Array.from({ length: 20 }, (_, i) => (i % 2 === 0 ? `turn ${i + 2}` : 'shift right')),
      shorter: { turns: 110, shifts: 10, levers: 2, cost: 124 },
    },
    {
      code: 'shorter-sequence',
      count: 2,
      effort: { turns: 0, shifts: 2, levers: 0, cost: 2 },
      steps: [],
      shorter: { turns: 0, shifts: 0, levers: 0, cost: 0 },
    },
  ],
  'stale-inset': INSET_KINDS.flatMap((kind) =>
    [true, false].map((isEmpty) =>
      kind === 'cautions'
        ? { code: 'stale-inset', kind, isEmpty, hasPictures: false }
        : { code: 'stale-inset', kind, name: 'bulb-order', isEmpty, hasPictures: kind === 'figure' },
    ),
  ),
  'bad-inset': all<InsetFault>(INSETS).map((why) => ({ code: 'bad-inset', why })),
};

/** The facts that quote a file with whatever may stand in it: the given text, in each place where it can come. */
export const quoting = (text: string): Facts[] => [
  { code: 'syntax', problem: { is: 'not-a-step', found: text } },
  { code: 'syntax', problem: { is: 'not-a-line', found: text, nearest: 'bell' } },
  { code: 'syntax', problem: { is: 'not-a-section', found: text, nearest: 'use' } },
  { code: 'syntax', problem: { is: 'no-section', found: text } },
  { code: 'syntax', problem: { is: 'wrong-section', found: text, belongs: 'machine' } },
  { code: 'syntax', problem: { is: 'wrong-section', found: text, belongs: 'sequence' } },
  { code: 'syntax', problem: { is: 'form', word: 'turn', found: text, forms: ['turn [back] [N]'] } },
  ...FILES.map((why): Facts => ({ code: 'file-not-found', path: text, why })),
  { code: 'sequence-cycle', by: 'use', name: text },
  { code: 'bad-profile', problem: { is: 'no-such-line', line: text } },
  { code: 'bad-inset', why: { is: 'unknown-kind', word: text } },
  { code: 'bad-inset', why: { is: 'unknown-word', word: text } },
  { code: 'bad-inset', why: { is: 'bad-figures', word: text } },
  { code: 'bad-inset', why: { is: 'bad-case', word: text } },
  { code: 'bad-inset', why: { is: 'unknown-sequence', name: text } },
  { code: 'bad-inset', why: { is: 'unknown-language', language: text, known: ['en', 'de'] } },
];

/** The facts that quote a number as it is written in a file, however many figures it has. */
export const quotingNumber = (number: string): Facts[] => [
  { code: 'wrong-arguments', why: { is: 'not-whole', number } },
  { code: 'wrong-arguments', why: { is: 'value-with-at', number } },
  { code: 'wrong-arguments', why: { is: 'out-of-range', number, lowest: 0, highest: 999 } },
  { code: 'setting-too-long', figures: number, at: 1, places: 6 },
  { code: 'dial-too-long', figures: number, at: 1, places: 10 },
  { code: 'no-such-place', register: 'setting', place: number, places: 6 },
  { code: 'no-such-place', register: 'setting', place: number, places: 6, isDecimals: true },
  { code: 'too-many-decimals', register: 'setting', number, marker: 1 },
  { code: 'carriage-end', at: 2, positions: 8, wanted: number },
  { code: 'reading-differs', differs: { is: 'register', register: 'result', expected: number, reading: '5' } },
  { code: 'reading-differs', differs: { is: 'carriage', expected: number, reading: 3 } },
  { code: 'goal-missed', register: 'result', why: { is: 'differs', goal: number, reading: '5' } },
  { code: 'no-such-reading', number, readings: 3 },
  { code: 'found-impossible', what: 'result', number, places: 5 },
];
