/**
 * Writes steps and lines as the notation spells them, and formats whole files.
 *
 * Invariant: formatting never loses anything: comments, blank lines and grouping marks stay, and a line that can't be
 * read is left exactly as it is.
 */
import { opens } from './lines.js';
import { Parser } from './sections.js';
import type {
  Argument,
  Assignment,
  CrankFile,
  ExpectItem,
  Expression,
  HeaderSyntax,
  LineItem,
  LineSyntax,
  Part,
  ProfileSyntax,
} from './tree.js';

const INDENT = '  ';

/** What stands on a line, in the notation's own spelling. */
export function print(item: LineItem | HeaderSyntax): string {
  switch (item.kind) {
    case 'set':
      return `set ${item.parts.map(printPart).join(' and ')}`;
    case 'turn':
      return words('turn', item.back && 'back', item.until && `until ${item.until}`, item.count && arg(item.count));
    case 'shift':
      return words('shift', item.way, item.half && 'half', item.count && arg(item.count));
    case 'clear':
      return words('clear', item.all ? 'all' : item.registers.join(' '));
    case 'dial':
      return `dial result ${printPart(item.part)}`;
    case 'mode':
      return `mode ${item.drive}`;
    case 'points':
      return `points ${item.items.map((i) => `${i.register} ${arg(i.decimals)}`).join(' ')}`;
    case 'expect':
      return `expect ${item.items.map(printReading).join(' ')}`;
    case 'found':
      return `found ${arg(item.which)} ${item.items.map(printReading).join(' ')}`;
    case 'ask':
      return `ask ${item.items.map((i) => i.register).join(' ')}`;
    case 'note':
    case 'caution':
      return `${item.kind} ${item.text.raw}`;
    case 'goal':
      return `goal ${item.register} = ${printExpression(item.expression)}`;
    case 'case':
      return `case ${assignments(item.assignments)}`;
    case 'repeat':
      return `repeat ${arg(item.count)} {`;
    case 'close':
      return '}';
    case 'run':
      return `run ${item.name.name}${item.args.length > 0 ? ` (${item.args.map(arg).join(', ')})` : ''}`;
    case 'multiply':
      return words('multiply by', arg(item.by), item.short && 'short');
    case 'divide':
      return words('divide', item.downTo && `to ${arg(item.downTo)}`, item.short && 'short');
    case 'use':
      return `use ${item.path.raw}`;
    case 'machine':
      return words('machine', item.name.name, item.title?.raw, item.like && `like ${item.like.name}`);
    case 'sequence': {
      const parameters = item.parameters.length > 0 && `(${assignments(item.parameters)})`;
      return words('sequence', item.name.name, item.title?.raw, parameters, item.on && `on ${item.on.name}`);
    }
    case 'bench':
      return `bench ${item.title.raw} of ${item.of.name} on ${item.on.name}`;
    case 'count':
      return `count ${'sense' in item ? item.sense : item.way}`;
    case 'transfer':
      return words('transfer', item.register, 'at' in item && item.at && `at ${item.at.text}`);
    case 'auto-clear':
    case 'auto-divide':
      return words(item.kind, 'on' in item && (item.on ? 'on' : 'off'));
    default:
      return printProfile(item);
  }
}

type OwnProfileLine = Exclude<ProfileSyntax, { kind: 'count' | 'transfer' | 'auto-clear' | 'auto-divide' }>;

function printProfile(line: OwnProfileLine | Extract<ProfileSyntax, { kind: 'park' | 'bell' }>): string {
  switch (line.kind) {
    case 'setting':
    case 'carriage':
      return `${line.kind} ${line.places.text}`;
    case 'counter':
      return words('counter', line.places.text, line.carry);
    case 'result':
      return words('result', line.places.text, line.dials && 'dials', line.reach && `reach ${line.reach.text}`);
    case 'subtract':
      return `subtract ${line.way}`;
    case 'effort':
      return `effort turn ${line.turn.text} shift ${line.shift.text} lever ${line.lever.text}`;
    case 'phrase':
      return `phrase ${line.step} ${line.text.raw}`;
    case 'no':
      return `no ${line.drops}`;
    case 'park':
      return 'park left';
    default:
      return line.kind;
  }
}

const words = (...parts: (string | false | undefined)[]): string => parts.filter(Boolean).join(' ');
const arg = (argument: Argument): string => (argument.kind === 'number' ? argument.text : argument.name);
const printPart = ({ figures, at }: Part): string => words(arg(figures), at && `at ${arg(at)}`);
const assignments = (list: readonly Assignment[]): string =>
  list.map(({ name, value }) => `${name.name} = ${value.text}`).join(', ');

function printReading(item: ExpectItem): string {
  const label = item.label && `as ${item.label.name}`;
  switch (item.kind) {
    case 'register':
      return words(item.register, `${item.negative ? '-' : ''}${arg(item.figures)}`, label);
    case 'carriage':
      return words('carriage', arg(item.position), label);
    default:
      return words(item.kind, label);
  }
}

/** An expression as written: groups keep their parentheses. */
export function printExpression(expression: Expression): string {
  switch (expression.kind) {
    case 'number':
    case 'name':
      return arg(expression);
    case 'binary':
      return `${printExpression(expression.left)} ${expression.operator} ${printExpression(expression.right)}`;
    case 'negative':
      return `-${printExpression(expression.of)}`;
    case 'sqrt':
      return `sqrt(${printExpression(expression.of)})`;
    case 'group':
      return `(${printExpression(expression.of)})`;
  }
}

const parser = new Parser();

/** The whole text, formatted, with its own line ends and byte order mark. Formatting twice changes nothing. */
export function format(text: string): string {
  const bom = text.startsWith('\ufeff') ? '\ufeff' : '';
  const ends = text.match(/\r\n|\n|\r/g) ?? [];
  const end = ends[0] ?? '\n';
  const printed = formatLines(parser.parse(text.slice(bom.length)));
  const endsOpen = printed.at(-1) !== '';
  return bom + printed.map((line, i) => line + (ends[i] ?? (endsOpen ? end : ''))).join('');
}

/** Every line of a file as the formatter writes it, in the same number of lines. */
export function formatLines(file: CrankFile): string[] {
  const lines: { syntax: LineSyntax; inBody: boolean }[] = [];
  for (const { section } of file.sections) {
    for (const [i, syntax] of section.lines.entries())
      lines.push({ syntax, inBody: i > 0 && section.kind !== 'preamble' });
  }
  const printed: string[] = [];
  let depth = 0;
  lines.forEach(({ syntax, inBody }, i) => {
    if (!inBody) depth = 0;
    const items = syntax.items;
    const leadingCloses = items.findIndex((item) => item.kind !== 'close');
    const closes = leadingCloses < 0 ? items.length : leadingCloses;
    const isProse = items.length === 0 && !syntax.header;
    const level = isProse ? commentLevel(lines, i, depth) : inBody ? 1 + Math.max(0, depth - closes) : 0;
    printed.push(printLine(syntax, INDENT.repeat(Math.min(level, 40))));
    for (const item of items) {
      if (item.kind === 'repeat') depth++;
      else if (item.kind === 'close' && depth > 0) depth--;
    }
  });
  return printed;
}

/** A comment stands as deep as the body it is in; before a section that follows, only if it was written at the margin. */
function commentLevel(lines: readonly { syntax: LineSyntax; inBody: boolean }[], at: number, depth: number): number {
  const line = lines[at];
  if (!line.inBody) return 0;
  const next = lines
    .slice(at + 1, at + 200)
    .find(({ syntax }) => syntax.header || syntax.items.length > 0 || syntax.errors.length > 0);
  const endsBody = !next || opens(next.syntax.text) !== undefined;
  return endsBody && line.syntax.comment?.from === 0 ? 0 : 1 + depth;
}

function printLine(line: LineSyntax, indent: string): string {
  if (line.errors.length > 0) return line.text;
  const items = line.header ? [line.header, ...line.items] : line.items;
  const code = joinItems(items.map(print));
  const all = words(code, line.comment && (code ? ` ${line.comment.text}` : line.comment.text));
  return all && indent + all;
}

/** Steps are parted by `;`, but for braces, which part by themselves. */
const joinItems = (items: readonly string[]): string =>
  items.reduce((line, item) => {
    const needsNone = line === '' || line.endsWith('{') || item === '}';
    return line + (line === '' ? '' : needsNone ? ' ' : line.endsWith('}') ? ' ' : '; ') + item;
  }, '');
