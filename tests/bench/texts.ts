/** Texts to time with: ordinary sequences of the size that is asked for, and JSON of as many lines and bytes. */

/** A small generator of numbers that are the same in every run (a linear congruential generator). */
export function numbers(seed: number): (below: number) => number {
  let state = seed;
  return (below) => {
    state = (Math.imul(state, 1_103_515_245) + 12_345) & 0x7fff_ffff;
    return state % below;
  };
}

const MACHINE = ['machine bench-12', '  setting 12', '  counter 12', '  result 20', '  carriage 9', '  bell', ''];

/** About so many lines, in sequences of a hundred lines with the mix of steps that manuals have. */
export function crankText(lines: number, seed = 1): string {
  const next = numbers(seed);
  const out = [...MACHINE];
  for (let sequence = 1; out.length < lines; sequence++) {
    out.push(`sequence lot-${sequence} "Lot ${sequence}" on bench-12`);
    for (let i = 1; i < 100 && out.length < lines; i++) out.push(bodyLine(i, next));
  }
  return out.join('\n');
}

/** As many lines, in sequences of a hundred lines in which nothing is wrong. */
export function soundText(lines: number): string {
  const out = [...MACHINE];
  for (let sequence = 1; out.length < lines; sequence++) {
    out.push(`sequence lot-${sequence} "Lot ${sequence}" on bench-12`, '  clear all');
    for (let i = 2; i < 100 && out.length < lines; i++) {
      out.push(i % 4 === 0 ? `  shift to ${1 + (i % 8)}` : i % 4 === 2 ? `  set ${i * 7}` : `  turn ${1 + (i % 5)}`);
    }
  }
  return out.join('\n');
}

/** As many lines, as manuals are: products, quotients and numbers turned figure by figure, with the readings expected. */
export function manualText(lines: number, seed = 1): string {
  const next = numbers(seed);
  const out = [...MACHINE.slice(0, -1), '  count first', ''];
  for (let sequence = 1; out.length < lines; sequence++) {
    out.push(`sequence lot-${sequence} "Lot ${sequence}" on bench-12`);
    for (let exercise = 0; exercise < 4; exercise++) {
      out.push('  clear all', ...product(next), ...turned(next), ...quotient(next), '');
    }
  }
  return out.slice(0, lines).join('\n');
}

function product(next: (below: number) => number): string[] {
  const price = 100 + next(9_900);
  const pieces = 10 + next(990);
  return [
    `  set ${price}  # the price`,
    `  multiply by ${pieces}`,
    `  expect counter ${pieces} result ${price * pieces}`,
    '  ask result',
    '  clear counter result; shift to 1',
  ];
}

/** Mostly small figures, for which the plain turns are the cheapest. */
function turned(next: (below: number) => number): string[] {
  const weight = 10 + next(990);
  const figures = Array.from({ length: 3 }, () => 1 + next(next(12) === 0 ? 9 : 5));
  const [units, tens, hundreds] = figures;
  const trays = units + 10 * tens + 100 * hundreds;
  return [
    `  set ${weight}`,
    `  turn ${units}`,
    '  shift right',
    `  turn ${tens}`,
    '  shift right',
    `  turn ${hundreds}`,
    `  expect counter ${trays} result ${weight * trays}`,
    '  clear counter result; shift to 1',
  ];
}

function quotient(next: (below: number) => number): string[] {
  const bulbs = 1_000 + next(9_000);
  const box = 11 + next(80);
  return [
    `  set ${bulbs}`,
    '  turn',
    '  clear counter',
    `  set ${box}`,
    '  shift to 3',
    '  divide to 1',
    `  expect counter ${Math.floor(bulbs / box)} result ${bulbs % box}`,
  ];
}

function bodyLine(i: number, next: (below: number) => number): string {
  switch (i % 10) {
    case 1:
      return '  clear all';
    case 2:
      return `  set ${next(1_000_000)}`;
    case 4:
      return `  shift to ${1 + next(9)}`;
    case 6:
      return '  shift to 2';
    case 8:
      return `  # tray ${next(100)}`;
    case 9:
      return '  ask counter result';
    case 0:
      return '';
    default:
      return `  turn ${1 + next(9)}`;
  }
}

/** JSON with as many lines and bytes as a text: what a short line can't take, a later one makes up for. */
export function jsonText(text: string, seed = 1): string {
  const next = numbers(seed);
  const lines = text.split('\n');
  const out = ['['];
  let owed = lines[0].length + lines[lines.length - 1].length - 2;
  for (let i = 1; i < lines.length - 1; i++) {
    const comma = i < lines.length - 2 ? ',' : '';
    const wanted = lines[i].length + owed;
    const short = `{"n":${next(10)}}${comma}`;
    const room = wanted - short.length - 7;
    const line = room > 0 ? short.replace('}', `,"s":"${'x'.repeat(room)}"}`) : short.padEnd(wanted, ' ');
    out.push(line);
    owed = wanted - line.length;
  }
  out.push(']');
  return out.join('\n');
}

/** What a line of that JSON may hold. */
export const SCHEMA = {
  type: 'array',
  items: {
    type: 'object',
    properties: { n: { type: 'number', minimum: 0, maximum: 9 }, s: { type: 'string' } },
    required: ['n'],
    additionalProperties: false,
  },
};
