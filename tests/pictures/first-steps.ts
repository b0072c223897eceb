/** Draws the pictures of the first steps, from files that are begun, their runs and their sheets: nothing in them is typed. */
import { finish } from '../../grammar/gradual.js';
import { newState } from '../../server/machine/index.js';
import { provingWording } from '../../server/proving/wording/index.js';
import { reportFindings } from '../../server/sequence/report.js';
import { wordingFor } from '../../server/sequence/wording/index.js';
import { inlayHints } from '../../server/service/inlay.js';
import { isProof, proofOf } from '../../server/service/proofs.js';
import type { MachineKind } from '../../server/service/starter/kinds.js';
import type { Task } from '../../server/service/starter/tasks.js';
import { starterWords } from '../../server/service/starter/wording/index.js';
import { starterGradually, starterOffers } from '../../server/service/starter.js';
import { figureSvg } from '../../server/sheets/figure/index.js';
import type { SheetStep } from '../../server/sheets/model.js';
import { isSheetRefused, sheetOf } from '../../server/sheets/sheet.js';
import { sheetWords } from '../../server/sheets/wording/index.js';
import { openMarked, reader } from '../service/editor.js';
import { box, COLOURS, codeLine, codeWidth, MARGIN, picture, WIDTH, waves, words, wrapped } from './strokes.js';

const LINE = 22;

/** A file that is begun, opened, from the header of its sequence on. */
function begun(machine: MachineKind, task: Task, language: string, change = (text: string) => text) {
  const text = change(finish(starterGradually({ machine, task, language })).text);
  const { document } = openMarked(text);
  const [sequence] = document.report.sequences;
  const first = document.library.lineOf(sequence.section);
  const someone = reader({ locale: language });
  const whole = { start: { line: 0, character: 0 }, end: { line: document.lines.length, character: 0 } };
  const beside = new Map(
    inlayHints(document, whole, someone).map(({ position, label }) => [position.line, String(label)]),
  );
  return { document, sequence, first, lines: document.lines.slice(first), beside };
}

/** A header takes less room so. */
const withoutMachine = (header: string): string => header.replace(/ on \S+$/, '');

/** The kinds of machines, as they are offered. */
function starting(language: string): string {
  const { machines } = starterOffers(starterWords(language));
  const rows = machines.slice(0, 4).map(({ label, detail }, i) => {
    const y = 16 + i * 66;
    const [ink, faint] = i === 0 ? (['chosenInk', 'chosenInk'] as const) : (['ink', 'faint'] as const);
    return [
      i === 0 ? box(8, y - 6, WIDTH - 16, 60, COLOURS.chosen, COLOURS.chosenEdge) : '',
      words(MARGIN, y + 12, label, { isBold: true, colour: ink }),
      ...wrapped(detail, 58).map((line, j) => words(MARGIN, y + 30 + j * 16, line, { size: 11.5, colour: faint })),
    ].join('');
  });
  return picture(278, machines.map(({ label }) => label).join(', '), rows.join('\n'));
}

/** A sequence with its readings. */
function readings(language: string): string {
  const { lines, beside, first } = begun('pinwheel', 'multiply', language);
  const shown = [withoutMachine(lines[0]), ...lines.slice(1, 12)];
  // Where the markers go is said by the step itself.
  const besides = (line: string, i: number) => (/^\s*points /.test(line) ? '' : beside.get(first + i));
  const drawn = shown.map((line, i) => codeLine(MARGIN, 32 + i * LINE, line, besides(line, i)));
  return picture(32 + shown.length * LINE, shown.join('; '), drawn.join('\n'));
}

/** The machine drawn as a step has left it. */
function machine(language: string): string {
  const { sequence, lines, first } = begun('pinwheel', 'multiply', language);
  const { profile, runs } = sequence;
  if (!profile) throw new Error('there is no machine');
  const [{ tape }] = runs;
  const row =
    Array.from({ length: tape.length }, (_, i) => i).findLast((i) => tape.stepAt(i).syntax.kind === 'turn') ?? 0;
  const before = row > 0 ? tape.stateAt(row - 1) : newState();
  const figure = figureSvg({ profile, before, after: tape.stateAt(row), rang: false }, sheetWords(language));
  const [, width, drawnHeight] = /viewBox="0 0 ([\d.]+) ([\d.]+)"/.exec(figure) ?? [];
  const scale = (WIDTH - 2 * MARGIN) / Number(width);
  const height = Math.ceil(scale * Number(drawnHeight));
  const step = lines[tape.stepAt(row).line] ?? '';
  // A picture within the picture would be laid out like the picture itself.
  const pen = /( fill="none"[^>]*)>/.exec(figure)?.[1] ?? '';
  const strokes = figure.replace(/^<svg.*?<\/desc>|<\/svg>$/gs, '');
  const placed = `<g transform="translate(${MARGIN} 52) scale(${scale.toFixed(4)})" color="${COLOURS.ink}"${pen}>${strokes}</g>`;
  return picture(
    height + 70,
    `${step.trim()} (${first + tape.stepAt(row).line + 1})`,
    codeLine(MARGIN, 32, step.trim()) + placed,
  );
}

/** A reading that does not hold, and what is said of it. */
function mistake(language: string): string {
  const changed = (text: string) =>
    text.replace(/(expect result )(\d+)\.(\d+)/, (_, before, whole, part) => `${before}${whole}.${part[1]}${part[0]}`);
  const { document, lines, beside, first } = begun('pinwheel', 'multiply', language, changed);
  const [finding] = reportFindings(document.library, document.report, wordingFor(language));
  const at = finding.line - 1 - first;
  const shown = lines.slice(at - 3, at + 1);
  const y = (i: number) => 32 + i * LINE;
  const last = shown[shown.length - 1];
  const indent = codeWidth(/^\s*/.exec(last)?.[0] ?? '');
  const message = wrapped(finding.message, 50);
  const top = y(shown.length) - 4;
  const drawn = [
    ...shown.map((line, i) => codeLine(MARGIN, y(i), line, beside.get(first + at - 3 + i))),
    waves(MARGIN + indent, y(shown.length - 1) + 5, codeWidth(last.trim())),
    box(MARGIN, top, WIDTH - 2 * MARGIN, 34 + message.length * 18, 'none', COLOURS.error),
    words(MARGIN + 12, top + 20, finding.code, { isCode: true, isBold: true, colour: 'error' }),
    ...message.map((line, i) => words(MARGIN + 12, top + 42 + i * 18, line)),
  ];
  return picture(top + 52 + message.length * 18, finding.message, drawn.join('\n'));
}

const plain = (text: SheetStep['text']): string =>
  text.map((span) => (typeof span === 'string' ? span : (Object.values(span)[0] as string))).join('');

/** The first sentences of a sheet. */
function sheet(language: string): string {
  const { sequence } = begun('pinwheel', 'instruction', language);
  const made = sheetOf({ kind: 'operating', language, figures: 'none', report: sequence, file: 'begun.crank' });
  if (isSheetRefused(made)) throw new Error(made.message);
  const steps = made.blocks.flatMap((block) => (block.is === 'steps' ? block.steps : []));
  const drawn = [
    box(24, 16, WIDTH - 48, 290, COLOURS.paper, COLOURS.faint, 2),
    words(46, 50, made.title, { size: 16, isBold: true }),
  ];
  let y = 84;
  for (const { number, text, readings: shown = [] } of steps) {
    const lines = wrapped(plain(text), 38);
    if (y + lines.length * 18 + shown.length * 18 > 290) break;
    drawn.push(words(46, y, `${number}.`, { isBold: true }), ...lines.map((line, i) => words(72, y + i * 18, line)));
    y += lines.length * 18;
    for (const reading of shown) {
      drawn.push(words(72, y, plain(reading), { size: 12, isBold: true }));
      y += 18;
    }
    y += 7;
  }
  return picture(306, made.title, drawn.join('\n'));
}

/** A test script: what it would catch, and readings that hold. */
function proof(language: string): string {
  const { sequence, lines } = begun('pinwheel', 'bench', language);
  const judged = finish(proofOf(sequence));
  if (!isProof(judged)) throw new Error('nothing is known of what it catches');
  const expects = lines.filter((line) => /^\s*expect /.test(line)).slice(0, 7);
  const [header] = lines;
  const drawn = [
    words(MARGIN, 30, provingWording(language).catches(judged.total), { size: 12, colour: 'faint' }),
    codeLine(MARGIN, 52, header.replace(/ ".*/, '')),
    ...expects.flatMap((line, i) => [
      codeLine(MARGIN, 80 + i * LINE, line),
      words(WIDTH - 42, 80 + i * LINE, '✓', { colour: 'good', isBold: true }),
    ]),
  ];
  return picture(90 + expects.length * LINE, header, drawn.join('\n'));
}

const PICTURES = { starting, readings, machine, mistake, sheet, proof };

/** All of them, by the names of their files. */
export function firstSteps(): Map<string, string> {
  const drawn = new Map<string, string>();
  for (const [name, draw] of Object.entries(PICTURES)) {
    for (const language of ['en', 'de']) drawn.set(`${name}.${language}.svg`, draw(language));
  }
  return drawn;
}
