/**
 * Bench sheets for the restorer: each step to be cranked, each reading to be compared wheel by wheel, and room for what
 * is found.
 */
import type { Gradual } from '../../grammar/gradual.js';
import { figuresIn, POSITION, type Profile, pointOf, type Register, type State, textOf } from '../machine/index.js';
import type { CaseRun } from '../sequence/check.js';
import { beginning } from './begin.js';
import { titleOf } from './course.js';
import { machineBlock, usualCautions } from './head.js';
import type { Block, Cell, Column, Sheet, Text } from './model.js';
import type { SheetOrder } from './order.js';
import { provesBlocks } from './proves.js';
import { plainText, tidy } from './spans.js';
import { withStageReadings } from './taken.js';
import type { Reading, Told, ToldStep } from './told.js';
import { type SheetWords, sheetWords } from './wording/index.js';

/** What is filled in by hand, in millimetres. */
const TICK = 9;
const REMARKS = 22;
/** Room for every wheel of the longest register; more would leave the steps too little. */
const A_WHEEL = 3;
const FOUND = { least: 38, most: 46 };

const foundWidth = ({ setting, counter, result }: Profile): number =>
  Math.min(FOUND.most, Math.max(FOUND.least, A_WHEEL * Math.max(setting, counter, result)));

/** Neither printed nor to be filled in. */
const NOTHING: Text = [''];

/** Made for the defaults, of the course of their run. The runs must be without an error. */
export function* benchSheetGradually({ report, language }: SheetOrder, course: readonly Told[]): Gradual<Sheet> {
  const words = sheetWords(language);
  const { bench, operating } = words;
  const [run] = report.runs;
  const { profile } = run.order;
  const title = titleOf(report.section);
  const machine = profile.title?.trim() || profile.name;
  const heading = (text: string): Block => ({ is: 'heading', level: 2, text: [text] });
  const found = bench.findingFields;
  return {
    kind: 'bench',
    language,
    title,
    subtitle: machine,
    foot: machine,
    blocks: [
      { is: 'fields', fields: Object.values(bench.fields).map((label) => ({ label })) },
      { is: 'cautions', title: bench.cautions, items: usualCautions('bench', words) },
      heading(bench.machine),
      machineBlock(machine, operating.machine, profile, words),
      heading(bench.beginning),
      { is: 'list', items: beginning(run, words) },
      heading(bench.steps),
      { is: 'paragraph', text: [bench.instruction] },
      ...tables(expectsSomething(run) ? course : withStageReadings(course, run, 'all'), profile, words),
      ...(yield* provesBlocks(run, course, words)),
      heading(bench.finding),
      { is: 'paragraph', text: [bench.findingNote] },
      {
        is: 'fields',
        fields: [
          { label: found.result, lines: 1 },
          { label: found.done, lines: 3 },
          { label: found.open, lines: 2 },
          { label: found.signed },
        ],
      },
    ],
  };
}

function expectsSomething({ tape }: CaseRun): boolean {
  for (let row = 0; row < tape.length; row++) if (tape.stepAt(row).syntax.kind === 'expect') return true;
  return false;
}

/** Tables of steps, and between them what is no step. */
function tables(course: readonly Told[], profile: Profile, words: SheetWords): Block[] {
  const blocks: Block[] = [];
  const columns = columnsOf(profile, words);
  let rows: Cell[][] = [];
  let caption = '';
  const close = () => {
    if (rows.length > 0) blocks.push({ is: 'table', caption, columns, rows });
    rows = [];
    caption = '';
  };
  for (const told of course) {
    if (told.is === 'step') {
      rows.push(...rowsOf(told, profile, words));
      continue;
    }
    close();
    if (told.is === 'part') caption = told.title;
    else blocks.push({ is: told.is, text: [told.text] });
  }
  close();
  return blocks;
}

function columnsOf(profile: Profile, { bench }: SheetWords): Column[] {
  const { number, step, expected, found, tick, remarks } = bench.columns;
  return [
    { head: number },
    { head: step },
    { head: expected },
    { head: found, blank: foundWidth(profile) },
    { head: tick, blank: TICK },
    { head: remarks, blank: REMARKS },
  ];
}

/** A row for the step, and in it or below it one for each of its readings. */
function rowsOf({ number, text, from, to, readings }: ToldStep, profile: Profile, words: SheetWords): Cell[][] {
  // What only announces other steps is nothing to tick.
  const isAnnouncement = to < from;
  // Where nothing is read, the step may take the room of what is expected.
  const unread: Cell[] = [null, ...(isAnnouncement ? [NOTHING, NOTHING, NOTHING] : [NOTHING, [], []])];
  const [first, ...others] = readings
    .flatMap((reading) => expectedTexts(reading, profile, words))
    .map((reading): Text[] => [tidy(reading), [], [], []]);
  return [[[number], tidy(text), ...(first ?? unread)], ...others.map((cells): Cell[] => [[], [], ...cells])];
}

/** What is expected; of a step that is done several times, each time apart if it is not always the same. */
function expectedTexts(reading: Reading, profile: Profile, words: SheetWords): Text[] {
  const { bench } = words;
  const all = reading.states.map((state) => expectedText(reading, state, profile, words));
  const named = (text: Text, when: string): Text => [
    ...(reading.label ? [{ strong: reading.label }, ': '] : []),
    ...text,
    ...(when === '' ? [] : [` (${when})`]),
  ];
  if (all.length === 1) return [named(all[0], '')];
  const isSame = all.every((text) => plainText(text) === plainText(all[0]));
  return isSame ? [named(all[0], bench.eachTime)] : all.map((text, i) => named(text, bench.time(i + 1)));
}

function expectedText({ of }: Reading, state: State, profile: Profile, words: SheetWords): Text {
  const { bench, steps, parts } = words;
  switch (of.is) {
    case 'register':
      return [`${parts.registers[of.register]} `, { reading: wheels(state, profile, of.register, words) }];
    case 'parked':
    case 'carriage':
      return [steps.carriage(state[POSITION])];
    default:
      return [bench.events[of.is]];
  }
}

/**
 * All the wheels of a register, the highest first, as they stand: figures in threes from the decimal marker to the left.
 * Where a signed counter shows marked figures every wheel stands by itself.
 */
export function wheels(state: State, profile: Profile, register: Register, { numbers }: SheetWords): string {
  const figures = figuresIn(textOf(state, profile, register));
  const marker = Math.min(pointOf(state, register), figures.length);
  const whole = figures.slice(0, figures.length - marker);
  const decimals = figures.slice(figures.length - marker);
  const isMarked = figures.some((figure) => figure.startsWith('-'));
  const written = isMarked
    ? [whole, decimals].map((part) => part.join(numbers.group).replaceAll('-', '−'))
    : [whole.join('').replace(/\B(?=(?:\d{3})+$)/g, numbers.group), decimals.join('')];
  return marker > 0 ? written.join(numbers.point) : written[0];
}
