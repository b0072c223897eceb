/**
 * What is said of sequences that were carried over, in English: what the new machine lacks and what would do.
 *
 * Another language is another file with the same functions.
 */
import type { Device } from '../../../sequence/findings.js';
import type { AdaptWording, Limit, Reading, Varying } from '../facts.js';

export const english: AdaptWording = {
  differenceText: ({ register, before, after, reason }) => {
    const left = after === undefined;
    switch (reason) {
      case 'complement':
        return `The ${NAMES[register]} shows ${after} in place of ${before}: a complement has nines up to the register's highest place.`;
      case 'fewer-places':
        return `The ${NAMES[register]} shows ${after} in place of ${before}: the decimal markers stand further right.`;
      case 'counts-otherwise':
        return `The counter shows ${after} in place of ${before}: it counts these turns in another way.`;
      case 'no-bell':
        return left
          ? 'The machine has no bell: it is not listened for.'
          : `The machine has no bell: ${after} is looked for in place of it.`;
      case 'no-counter':
        return `The machine has no counter: the reading ${before} is left out.`;
      case 'no-park':
        return 'The carriage of this machine is not out of gear here: it is not looked for.';
      case 'no-complement':
        return `The number is subtracted in place of adding its complement: no ${before} is looked for.`;
      case 'by-complement':
        return `The complement is added in place of subtracting: no ${before} is looked for.`;
      case 'built-up':
        return left
          ? `The result is built up in place of taking off: no ${before} is looked for.`
          : `The result shows ${after} in place of ${before}: it builds up what was taken off before.`;
      case 'positions':
        return `The carriage stands in position ${after} in place of ${before}.`;
    }
  },
  reread:
    'What is said there stays as it was written, and steps beside it have changed: read again whether it still holds.',
  obstacleText: (obstacle) => {
    switch (obstacle.kind) {
      case 'limit':
        return `${hasText(obstacle.limit, obstacle.has)}, and this needs ${obstacle.needs}. ${LIMIT_ADVICE[obstacle.limit]}`;
      case 'complement-levers':
        return `The machine only adds. To subtract by the complement, ${obstacle.needs} levers would have to reach the top of the result, and there ${obstacle.has === 1 ? 'is 1' : `are ${obstacle.has}`}. Use a machine that subtracts.`;
      case 'device':
        return DEVICES[obstacle.device];
      case 'counting':
        return 'The counter of the machine counts these turns the other way, and its reading is wanted. Use a machine with a count lever, or do without the reading.';
      case 'no-carry':
        return "The wheels of the machine's counter do not carry into one another, and its reading is wanted. Turn no more than nine times in a position, and don't turn back past zero.";
      case 'counter-below-zero':
        return 'The counter would go below zero on the way. Begin with the turns that add.';
      case 'varies':
        return VARYING[obstacle.what];
      case 'run':
        return `${obstacle.name} is run here, and its own steps would have to change. Carry it over first under another name, and run that.`;
      case 'source':
        return `The sequence has an error here as it stands (${obstacle.code}). Mend it first.`;
      case 'too-long':
        return `The sequence is too long to be tried out: it has more than ${obstacle.limit.toLocaleString('en-US')} lines, or steps and turns with all its cases. Split it up.`;
      case 'bad-machine':
        return 'The machine contradicts itself. Mend its lines first.';
      case 'no-event':
        return `${EVENTS[obstacle.event]} here${
          obstacle.has === obstacle.was
            ? ' on this machine'
            : `, for the result of this machine has ${count(obstacle.has, 'place')} and not ${obstacle.was}`
        }. Use numbers that come to its top, or do not look for it.`;
      case 'not-equal':
        if (obstacle.register)
          return `The ${obstacle.register} would show something else after this step than on the old machine.${
            obstacle.register === 'counter'
              ? ' If its reading is not wanted, give the sequence a goal for the result and expect nothing of the counter.'
              : ''
          }`;
        return obstacle.code === undefined
          ? 'The steps can be made, but the readings would not come out as they do on the old machine.'
          : `The step can be made, but it would not do the same: it would give ${obstacle.code}.`;
    }
  },
  notes: {
    readReading: (register) => `Read the ${register} and set what it shows on the levers.`,
    buildUp: (dividend) => `Build up from zero towards ${dividend}, in place of taking off from it.`,
    rest: (rest) => `What is left of the dividend, ${rest}, goes into the result.`,
    sense: 'One turn each way, so that the counter takes its sense.',
  },
};

const NAMES: Readonly<Record<Reading, string>> = {
  setting: 'setting',
  counter: 'counter',
  result: 'result',
  bell: 'bell',
  overflow: 'result',
  overdraw: 'result',
  parked: 'carriage',
  carriage: 'carriage',
};

const EVENTS = {
  bell: 'The bell does not ring',
  overflow: 'The result does not run over',
  overdraw: 'The result does not fall below zero',
};

const count = (n: number, thing: string): string => `${n} ${thing}${n === 1 ? '' : 's'}`;

function hasText(limit: Limit, has: number): string {
  switch (limit) {
    case 'setting':
      return `The machine has ${count(has, 'setting lever')}`;
    case 'counter':
      return `The counter of the machine has ${count(has, 'place')}`;
    case 'result':
      return `The result of the machine has ${count(has, 'place')}`;
    case 'carriage':
      return `The carriage of the machine has ${count(has, 'position')}`;
    case 'reach':
      return `The tens carry of the machine reaches over ${count(has, 'place')} from where the carriage stands`;
  }
}

const LIMIT_ADVICE: Readonly<Record<Limit, string>> = {
  setting: 'Use numbers with fewer figures, or a wider machine.',
  counter: 'Use numbers with fewer figures, or a wider machine.',
  result: 'Use numbers with fewer figures, or a wider machine.',
  carriage: 'Split the sum up, or use a machine whose carriage goes further.',
  reach: 'Work further left, with fewer places above, or use a machine whose tens carry goes all the way.',
};

const DEVICES: Readonly<Record<Device, string>> = {
  mode: 'The machine has no drive lever.',
  count: 'The machine has no count lever.',
  'auto-clear': 'The machine has no button that clears the levers.',
  'auto-divide':
    "The machine has no automatic division, and these turns of it can't be made by hand. Write divide in place of them.",
  dial: 'The result of the machine has no wheels that can be set by hand, and no turn could bring the figures there now. Shift the carriage into gear before.',
  'transfer result': 'The machine has no back transfer from the result.',
  'transfer counter': 'The machine has no back transfer from the counter, and no counter to read in place of it.',
  'shift out': 'The carriage of the machine has no place out of gear.',
  'half steps': 'The carriage of the machine has no half places.',
  counter:
    'The machine has no counter, and its reading is wanted. Use a machine that counts, or do without the reading.',
  bell: 'The machine has no bell.',
  subtract: 'The machine only adds, and the complement would not do here. Use a machine that subtracts.',
};

const VARYING: Readonly<Record<Varying, string>> = {
  transfer:
    'Without back transfer the reading would have to be set by hand, and it is not the same in every case. Write a sequence for each case.',
  dial: 'The figures would have to be set on the levers in pieces, and they are not the same in every case. Write a sequence for each case.',
  complement:
    'The figures would have to be written out, and they are not the same in every case. Write a sequence for each case.',
  quotient:
    "The quotient's figures would have to be turned one by one, and they are not the same in every case. Write a sequence for each case, or use a machine whose counter can count back turns up.",
  marker: 'The decimal markers would have to move, and a parameter says where they stand. Write a number in its place.',
  reading: 'The reading would be another one, and not the same in every case. Write a sequence for each case.',
  turns:
    'What has to be done is not the same in every case or round. Write the rounds out, or a sequence for each case.',
};
