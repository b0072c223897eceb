/** Writes steps and lines as the notation spells them. Numbers keep their grouping marks, texts their escapes. */
import type {
  Argument,
  Assignment,
  ExpectItem,
  Expression,
  HeaderSyntax,
  LineItem,
  Part,
  ProfileSyntax,
} from './tree.js';

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
      return words(item.isAbsent && 'no', item.kind, label);
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

/** The items of a line: steps are parted by `;`, but for braces, which part by themselves. */
export const joinItems = (items: readonly string[]): string =>
  items.reduce((line, item) => {
    const needsNone = line === '' || line.endsWith('{') || item === '}';
    return line + (line === '' ? '' : needsNone ? ' ' : line.endsWith('}') ? ' ' : '; ') + item;
  }, '');
