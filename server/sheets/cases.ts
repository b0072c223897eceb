/** The cases of a sequence: their numbers, and what the machine shows with them. */
import type { Register, State } from '../machine/index.js';
import type { CaseRun, SequenceReport } from '../sequence/check.js';
import type { Block, Column, Text } from './model.js';
import { formed } from './numbers.js';
import { numberText } from './placed.js';
import { shownReading } from './shown.js';
import { plainText } from './spans.js';
import type { SheetWords } from './wording/index.js';

/** Readings that are asked for and told in a row of the table; a column each. */
const MOST_ASKED = 8;

/** What a sheet says of other numbers; nothing where there are no cases. */
export function casesPart(report: SequenceReport, words: SheetWords): Block[] {
  if (report.runs.length < 2) return [];
  const { operating } = words;
  return [
    { is: 'heading', level: 2, text: [operating.cases] },
    casesTable(report, words),
    { is: 'paragraph', text: [operating.casesNote], isFine: true },
  ];
}

/** A table with a row for the defaults and for each case. */
export function casesTable({ runs, section }: SequenceReport, words: SheetWords): Block {
  const { operating, numbers, parts } = words;
  const names = [...runs[0].order.values.keys()];
  const shown = (run: CaseRun, state: State, register: Register): Text =>
    shownReading(state, run.order.profile, register, words);
  const asked = runs.map((run) => askedIn(run).map(({ register, state }) => shown(run, state, register)));
  const registers = askedIn(runs.reduce((most, run) => (askedIn(run).length > askedIn(most).length ? run : most)));
  const goals = [...new Set(section.goals.map(({ syntax }) => syntax.register))];
  const atEnd = goals.map((register) => ({ register, texts: runs.map((run) => shown(run, run.state, register)) }));
  // What is asked for last may well be what stands there at the end.
  const isAsked = ({ register, texts }: (typeof atEnd)[number]): boolean => {
    const at = registers.findLastIndex((one) => one.register === register);
    return at >= 0 && texts.every((text, i) => asked[i][at] && plainText(text) === plainText(asked[i][at]));
  };
  const left = atEnd.filter((one) => !isAsked(one));
  const columns: Column[] = [
    { head: operating.caseNumber, isFigures: true },
    ...names.map((head): Column => ({ head, isFigures: true })),
    ...registers.map(
      ({ register }, i): Column => ({ head: operating.asked(parts.registers[register], i + 1), isFigures: true }),
    ),
    ...left.map(({ register }): Column => ({ head: operating.atEnd(parts.registers[register]), isFigures: true })),
  ];
  const rows = runs.map((run, i): Text[] => [
    [String(i + 1)],
    ...names.map((name): Text => {
      const value = run.order.values.get(name);
      return [value ? formed(numberText(value), numbers) : operating.none];
    }),
    ...registers.map((_, k): Text => asked[i][k] ?? [operating.none]),
    ...left.map(({ texts }) => texts[i]),
  ]);
  return { is: 'table', caption: operating.casesCaption, columns, rows };
}

function askedIn({ tape, order }: CaseRun): { readonly register: Register; readonly state: State }[] {
  const asked: { register: Register; state: State }[] = [];
  for (let row = 0; row < tape.length && asked.length < MOST_ASKED; row++) {
    const { syntax } = tape.stepAt(row);
    if (syntax.kind !== 'ask') continue;
    for (const { register } of syntax.items) {
      if (order.profile[register] > 0) asked.push({ register, state: tape.stateAt(row) });
    }
  }
  return asked.slice(0, MOST_ASKED);
}
