/** Plans for a person at a terminal; a sequence also for the file that it is sent to. */
import wrapAnsi from 'wrap-ansi';
import type { Compared } from '../../planning/compare.js';
import { type Alternative, type Decision, isRefused, type Plan, type PlanOrder } from '../../planning/order.js';
import type { PlanWording } from '../../planning/wording/index.js';
import { harmless, paragraph, type Terminal, widthOf } from '../terminal.js';
import { aligned, type Cell } from './aligned.js';

/** What the answer is, where it stands and what it costs: one line. */
export function answerLine(plan: Plan, order: Pick<PlanOrder, 'isRounded'>, wording: PlanWording): string {
  const answer = `${plan.reading} in the ${plan.register}, ${standing(plan, order, wording)}`;
  return `${answer}; ${wording.effortText(plan.effort, plan.written)}.`;
}

/** How an answer stands to the value that was asked for. */
const standing = (plan: Plan, { isRounded }: Pick<PlanOrder, 'isRounded'>, { answerText }: PlanWording): string =>
  plan.isExact ? answerText.exact : isRounded ? answerText.rounded : answerText.cutOff;

/** Comment lines are broken at this width, wherever they are read later. */
const COMMENT_WIDTH = 76;

/** The explanation as comment lines: what was asked, the answer, and what was decided between which alternatives. */
export function explanation(
  asked: string,
  answer: readonly string[],
  decisions: readonly Decision[],
  wording: PlanWording,
): string[] {
  // Products of one kind are decided alike, which is worth telling once.
  const told = new Set(decisions.map((decision) => decisionLines(decision, wording).join('\n')));
  const parts = [[asked, ...answer].flatMap(wrapped).join('\n'), ...told];
  return parts
    .flatMap((part, i) => [...(i === 0 ? [] : ['']), ...part.split('\n')])
    .map((line) => `# ${line}`.trimEnd());
}

const wrapped = (text: string): string[] => wrapAnsi(text, COMMENT_WIDTH).split('\n');

function decisionLines({ about, alternatives, why }: Decision, wording: PlanWording): string[] {
  const { headings, topicName, limitText, reasonText } = wording;
  const head: Cell[] = [
    { text: headings.chosen },
    { text: headings.way, left: true },
    { text: headings.cost },
    { text: headings.written },
  ];
  const [heads, ...rows] = aligned([head, ...alternatives.map((alternative) => alternativeRow(alternative, wording))]);
  const indent = ' '.repeat(widthOf(headings.chosen) + 6);
  const told = alternatives.flatMap(({ limit }, i) => [
    `  ${rows[i]}`,
    ...(limit
      ? wrapAnsi(limitText(limit), COMMENT_WIDTH - indent.length)
          .split('\n')
          .map((line) => indent + line)
      : []),
  ]);
  const title = topicName[about];
  return [
    `${title.charAt(0).toUpperCase()}${title.slice(1)}:`,
    `  ${heads}`,
    ...told,
    ...wrapAnsi(reasonText[why], COMMENT_WIDTH - 2)
      .split('\n')
      .map((line) => `  ${line}`),
  ];
}

function alternativeRow({ way, cost, written, isChosen }: Alternative, { wayText }: PlanWording): Cell[] {
  return [
    { text: isChosen ? '>' : '' },
    { text: harmless(wayText(way)), left: true },
    { text: cost === undefined ? '' : String(cost) },
    { text: written === undefined ? '' : String(written) },
  ];
}

/** Several machines: a row for each that can, and what stands in the way of the others. */
export function comparisonText(
  compared: readonly Compared[],
  order: Pick<PlanOrder, 'isRounded'>,
  wording: PlanWording,
  terminal: Pick<Terminal, 'colors' | 'columns'>,
): string {
  const { headings, limitText } = wording;
  // Machines that can't stand in one column with those that can.
  const width = Math.max(...[headings.machine, ...compared.map(({ machine }) => machine.name)].map(widthOf));
  const nameOf = (name: string): string => name + ' '.repeat(width - widthOf(name));
  const head: Cell[] = [
    { text: nameOf(headings.machine) },
    { text: headings.answer },
    { text: headings.register, left: true },
    { text: headings.figures },
    { text: headings.turns },
    { text: headings.shifts },
    { text: headings.levers },
    { text: headings.cost },
  ];
  const can = compared.flatMap(({ machine, planned }) =>
    isRefused(planned) ? [] : [planRow(nameOf(machine.name), planned, order)],
  );
  const cannot = compared.flatMap(({ machine, planned }) => {
    if (!isRefused(planned)) return [];
    const indent = ' '.repeat(width + 4);
    return [`  ${nameOf(machine.name)}${paragraph(limitText(planned.refused), indent, terminal).slice(width + 2)}`];
  });
  const table = can.length > 0 ? aligned([head, ...can]).map((line) => `  ${line}`) : [];
  const shown = table.map((line, i) => (i === 0 ? terminal.colors.dim(line) : line));
  const parted = can.length > 0 && cannot.length > 0 ? [''] : [];
  return [...shown, ...parted, ...cannot].map((line) => `${line}\n`).join('');
}

/** The answer as a table has room for it: dots behind one that was cut off, a sign before one that was rounded. */
const signed = ({ reading, isExact }: Plan, { isRounded }: Pick<PlanOrder, 'isRounded'>): string =>
  isExact ? reading : isRounded ? `≈ ${reading}` : `${reading}…`;

function planRow(name: string, plan: Plan, order: Pick<PlanOrder, 'isRounded'>): Cell[] {
  const { turns, shifts, levers, cost } = plan.effort;
  const numbers = [plan.figures, turns, shifts, levers, cost].map((n) => ({ text: String(n) }));
  return [{ text: name }, { text: signed(plan, order) }, { text: plan.register, left: true }, ...numbers];
}
