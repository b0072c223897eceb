/** Every step of the notation as a plain sentence, told of sequences that are run. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import type { RepeatStep } from '../../grammar/tree.js';
import { readingsOf, repeatEnd, stepSentence } from '../../server/sheets/sentences.js';
import { plainText } from '../../server/sheets/spans.js';
import { SHEET_LANGUAGES, sheetWords } from '../../server/sheets/wording/index.js';
import { anyText } from '../grammar/generate.js';
import { checkText } from '../marked.js';
import { type MachineName, machine } from '../sequence/machines.js';
import { machineText, trials, trialText } from '../sequence/random.js';
import { rowsIn, sentenceOf, told, toldAsWritten } from './told.js';

const sequence = (steps: readonly string[]): string => `sequence trial on stores\n${steps.join('\n')}\n`;
const LIFT = 'machine stores\nsetting 4\ncounter 4\nresult 8\nsubtract lift\n';

interface Example {
  readonly on: MachineName | 'lift';
  /** Steps before it. */
  readonly after?: readonly string[];
  readonly step: string;
  readonly en: string;
  readonly de: string;
}

const EXAMPLES: readonly Example[] = [
  // Setting
  { on: 'reverse', step: 'set 245', en: 'Set 245 on levers 3 to 1.', de: '245 auf den Hebeln 3 bis 1 einstellen.' },
  { on: 'reverse', step: 'set 7', en: 'Set 7 on lever 1.', de: '7 auf Hebel 1 einstellen.' },
  { on: 'reverse', step: 'set 0', en: 'Set all levers to 0.', de: 'Alle Einstellhebel auf 0 stellen.' },
  { on: 'reverse', step: 'set 007', en: 'Set 007 on levers 3 to 1.', de: '007 auf den Hebeln 3 bis 1 einstellen.' },
  {
    on: 'reverse',
    after: ['points setting 1'],
    step: 'set 24.5',
    en: 'Set 24.5 on the levers (245: levers 3 to 1).',
    de: '24,5 auf den Hebeln (245: Hebel 3 bis 1) einstellen.',
  },
  {
    on: 'reverse',
    after: ['points setting 2'],
    step: 'set 24.5',
    en: 'Set 24.5 on the levers (2450: levers 4 to 1).',
    de: '24,5 auf den Hebeln (2450: Hebel 4 bis 1) einstellen.',
  },
  {
    on: 'reverse',
    after: ['set 4321'],
    step: 'set 12 at 3 and 5',
    en: 'Set 12 on levers 4 to 3 and 5 on lever 1. Set all other levers to 0.',
    de: '12 auf den Hebeln 4 bis 3 und 5 auf Hebel 1 einstellen. Alle anderen Einstellhebel auf 0 stellen.',
  },
  // The levers that are not named stand at 0 already.
  {
    on: 'reverse',
    after: ['set 21'],
    step: 'set 34',
    en: 'Set 34 on levers 2 to 1.',
    de: '34 auf den Hebeln 2 bis 1 einstellen.',
  },
  {
    on: 'reverse',
    step: 'set 12345 at 2',
    en: 'Set 12 345 on the levers, its units on lever 2.',
    de: '12 345 auf den Hebeln, die Einer auf Hebel 2, einstellen.',
  },
  // Turning
  { on: 'reverse', step: 'turn', en: 'Turn the crank once.', de: 'Die Kurbel einmal drehen.' },
  { on: 'reverse', step: 'turn 2', en: 'Turn the crank twice.', de: 'Die Kurbel zweimal drehen.' },
  { on: 'reverse', step: 'turn 3', en: 'Turn the crank 3 times.', de: 'Die Kurbel 3-mal drehen.' },
  { on: 'reverse', step: 'turn 0', en: 'Do not turn the crank.', de: 'Die Kurbel nicht drehen.' },
  {
    on: 'reverse',
    step: 'turn back 2',
    en: 'Turn the crank backwards twice.',
    de: 'Die Kurbel zweimal rückwärts drehen.',
  },
  {
    on: 'reverse',
    after: ['set 3', 'turn 2'],
    step: 'turn back until overdraw',
    en: 'Turn the crank backwards until the result goes below zero (nines appear at the left).',
    de: 'Die Kurbel rückwärts drehen, bis das Resultatwerk unter null kommt (links erscheinen Neunen).',
  },
  {
    on: 'full',
    after: ['set 3', 'mode subtract'],
    step: 'turn until overdraw',
    en: 'Turn the crank until the result goes below zero (the bell rings).',
    de: 'Die Kurbel drehen, bis das Resultatwerk unter null kommt (die Glocke läutet).',
  },
  {
    on: 'full',
    after: ['dial result 84', 'set 6', 'shift to 2', 'mode subtract', 'auto-divide on'],
    step: 'turn until stop',
    en: 'Turn the crank until the carriage has run out of gear.',
    de: 'Die Kurbel drehen, bis der Schlitten außer Eingriff gelaufen ist.',
  },
  {
    on: 'full',
    after: ['dial result 840', 'set 6', 'shift to 3', 'mode subtract', 'auto-divide on'],
    step: 'divide to 2',
    en: 'Turn the crank until the carriage has moved on to position 1.',
    de: 'Die Kurbel drehen, bis der Schlitten in Stellung 1 gelaufen ist.',
  },
  // Carriage
  {
    on: 'reverse',
    after: ['shift to 2'],
    step: 'shift right 2',
    en: 'Shift the carriage 2 places to the right, to position 4.',
    de: 'Den Schlitten um 2 Stellen nach rechts rücken, in Stellung 4.',
  },
  {
    on: 'reverse',
    after: ['shift to 3'],
    step: 'shift left',
    en: 'Shift the carriage one place to the left, to position 2.',
    de: 'Den Schlitten um eine Stelle nach links rücken, in Stellung 2.',
  },
  // It goes as far as it can, and that is told.
  {
    on: 'reverse',
    after: ['shift to 3'],
    step: 'shift right 5',
    en: 'Shift the carriage one place to the right, to position 4.',
    de: 'Den Schlitten um eine Stelle nach rechts rücken, in Stellung 4.',
  },
  {
    on: 'reverse',
    step: 'shift left',
    en: 'Leave the carriage in position 1.',
    de: 'Den Schlitten in Stellung 1 lassen.',
  },
  {
    on: 'full',
    step: 'shift left',
    en: 'Shift the carriage one place to the left, out of gear.',
    de: 'Den Schlitten um eine Stelle nach links rücken, außer Eingriff.',
  },
  {
    on: 'reverse',
    step: 'shift to 3',
    en: 'Shift the carriage to position 3.',
    de: 'Den Schlitten in Stellung 3 rücken.',
  },
  {
    on: 'reverse',
    step: 'shift to 9',
    en: 'Shift the carriage to position 9.',
    de: 'Den Schlitten in Stellung 9 rücken.',
  },
  {
    on: 'reverse',
    step: 'shift to 1',
    en: 'Leave the carriage in position 1.',
    de: 'Den Schlitten in Stellung 1 lassen.',
  },
  {
    on: 'full',
    step: 'shift out',
    en: 'Shift the carriage to the left, out of gear.',
    de: 'Den Schlitten nach links außer Eingriff rücken.',
  },
  {
    on: 'full',
    after: ['shift out'],
    step: 'shift out',
    en: 'Leave the carriage out of gear.',
    de: 'Den Schlitten außer Eingriff lassen.',
  },
  {
    on: 'halfStep',
    after: ['shift to 3'],
    step: 'shift right half',
    en: 'Shift the carriage half a place to the right: it now subtracts in position 3.',
    de: 'Den Schlitten um eine halbe Stelle nach rechts rücken: In Stellung 3 subtrahiert die Maschine jetzt.',
  },
  {
    on: 'halfStep',
    after: ['shift to 3'],
    step: 'shift left half',
    en: 'Shift the carriage half a place to the left: it now subtracts in position 2.',
    de: 'Den Schlitten um eine halbe Stelle nach links rücken: In Stellung 2 subtrahiert die Maschine jetzt.',
  },
  {
    on: 'halfStep',
    step: 'shift left half',
    en: 'Shift the carriage half a place to the left, out of gear.',
    de: 'Den Schlitten um eine halbe Stelle nach links rücken, außer Eingriff.',
  },
  // Clearing, passing back, dialling
  {
    on: 'reverse',
    step: 'clear counter result',
    en: 'Clear the counter and the result.',
    de: 'Das Umdrehungszählwerk und das Resultatwerk löschen.',
  },
  { on: 'reverse', step: 'clear setting', en: 'Clear the setting.', de: 'Das Einstellwerk löschen.' },
  {
    on: 'reverse',
    step: 'clear all',
    en: 'Clear everything: the setting, the counter and the result.',
    de: 'Alles löschen: das Einstellwerk, das Umdrehungszählwerk und das Resultatwerk.',
  },
  {
    on: 'adder',
    step: 'clear all',
    en: 'Clear everything: the setting and the result.',
    de: 'Alles löschen: das Einstellwerk und das Resultatwerk.',
  },
  {
    on: 'full',
    step: 'transfer result',
    en: 'Pass the result back to the levers.',
    de: 'Die Ziffern des Resultatwerks auf die Einstellhebel zurückübertragen.',
  },
  {
    on: 'full',
    step: 'transfer counter',
    en: 'Pass the counter back to the levers.',
    de: 'Die Ziffern des Umdrehungszählwerks auf die Einstellhebel zurückübertragen.',
  },
  {
    on: 'full',
    after: ['points result 2'],
    step: 'dial result 421.40',
    en: 'Dial 421.40 on the result wheels.',
    de: '421,40 an den Rädern des Resultatwerks einstellen.',
  },
  {
    on: 'full',
    after: ['dial result 10000'],
    step: 'dial result 42 at 2',
    en: 'Dial 42 on the result wheels, its units in place 2. Set all other result wheels to 0.',
    de: '42 an den Rädern des Resultatwerks, die Einer in Stelle 2, einstellen. Alle anderen Räder des Resultatwerks auf 0 stellen.',
  },
  {
    on: 'full',
    step: 'dial result 0',
    en: 'Turn all result wheels to 0.',
    de: 'Alle Räder des Resultatwerks auf 0 stellen.',
  },
  // Levers and buttons
  { on: 'full', step: 'mode subtract', en: 'Set the drive to subtract.', de: 'Den Antrieb auf Subtraktion stellen.' },
  { on: 'full', step: 'mode add', en: 'Leave the drive at add.', de: 'Den Antrieb auf Addition lassen.' },
  {
    on: 'lift',
    step: 'mode subtract',
    en: 'Lift the crank: it now subtracts.',
    de: 'Die Kurbel heben: Sie subtrahiert jetzt.',
  },
  {
    on: 'lift',
    after: ['mode subtract'],
    step: 'mode add',
    en: 'Lower the crank: it now adds.',
    de: 'Die Kurbel senken: Sie addiert jetzt.',
  },
  {
    on: 'lift',
    after: ['mode subtract'],
    step: 'mode subtract',
    en: 'Leave the crank lifted: it subtracts.',
    de: 'Die Kurbel gehoben lassen: Sie subtrahiert.',
  },
  {
    on: 'halfStep',
    after: ['shift to 2'],
    step: 'mode subtract',
    en: 'Shift the carriage half a place to the right: it now subtracts in position 2.',
    de: 'Den Schlitten um eine halbe Stelle nach rechts rücken: In Stellung 2 subtrahiert die Maschine jetzt.',
  },
  // Out of gear only the lever moves.
  {
    on: 'halfStep',
    after: ['shift out'],
    step: 'mode subtract',
    en: 'Set the drive to subtract.',
    de: 'Den Antrieb auf Subtraktion stellen.',
  },
  {
    on: 'full',
    step: 'count minus',
    en: 'Set the count lever to minus: turns that subtract are counted up.',
    de: 'Den Umschalthebel des Umdrehungszählwerks auf Minus stellen: Subtrahierende Umdrehungen werden vorwärts gezählt.',
  },
  {
    on: 'full',
    step: 'count plus',
    en: 'Leave the count lever at plus.',
    de: 'Den Umschalthebel des Umdrehungszählwerks auf Plus lassen.',
  },
  {
    on: 'full',
    step: 'auto-clear on',
    en: 'Switch on the clearing of the levers: each turn returns them to 0.',
    de: 'Die Löschung der Einstellhebel einschalten: Jede Umdrehung stellt sie auf 0.',
  },
  {
    on: 'full',
    step: 'auto-clear off',
    en: 'Leave the clearing of the levers switched off.',
    de: 'Die Löschung der Einstellhebel ausgeschaltet lassen.',
  },
  {
    on: 'full',
    after: ['auto-divide on'],
    step: 'auto-divide off',
    en: 'Switch off the automatic division.',
    de: 'Die automatische Division ausschalten.',
  },
  // Markers and readings
  {
    on: 'reverse',
    step: 'points setting 1 counter 1 result 2',
    en: 'Put the decimal markers: 1 decimal in the setting, 1 decimal in the counter, 2 decimals in the result.',
    de: 'Die Kommamarken stellen: eine Dezimalstelle im Einstellwerk, eine Dezimalstelle im Umdrehungszählwerk, 2 Dezimalstellen im Resultatwerk.',
  },
  {
    on: 'reverse',
    step: 'points result 2',
    en: 'Put the decimal marker: 2 decimals in the result.',
    de: 'Die Kommamarke stellen: 2 Dezimalstellen im Resultatwerk.',
  },
  {
    on: 'reverse',
    after: [
      'points setting 1 counter 1 result 2',
      'set 24.5',
      'turn 2',
      'shift right',
      'turn 7',
      'shift right',
      'turn',
    ],
    step: 'expect counter 17.2 result 421.40',
    en: 'The counter reads 17.2 and the result 421.40.',
    de: 'Das Umdrehungszählwerk zeigt 17,2 und das Resultatwerk 421,40.',
  },
  // What the machine shows is told, not what somebody expects of it.
  {
    on: 'reverse',
    after: ['set 21', 'turn 2'],
    step: 'expect result 43',
    en: 'The result reads 42.',
    de: 'Das Resultatwerk zeigt 42.',
  },
  {
    on: 'reverse',
    after: ['set 42', 'turn back'],
    step: 'expect result -42',
    en: 'The result reads 99 999 958 (the complement of 42).',
    de: 'Das Resultatwerk zeigt 99 999 958 (das Komplement von 42).',
  },
  {
    on: 'signed',
    after: ['set 1', 'turn back 2', 'shift to 3', 'turn 3'],
    step: 'expect counter 298',
    en: 'The counter reads 298 (on the wheels 3 0 −2).',
    de: 'Das Umdrehungszählwerk zeigt 298 (auf den Rädern 3 0 −2).',
  },
  {
    on: 'full',
    after: ['set 1', 'mode subtract', 'turn'],
    step: 'expect overdraw bell carriage 1',
    en: 'The result has gone below zero. The bell has rung. The carriage stands in position 1.',
    de: 'Das Resultatwerk ist unter null gekommen. Die Glocke hat geläutet. Der Schlitten steht in Stellung 1.',
  },
  {
    on: 'full',
    after: ['dial result 99_999_999', 'set 1', 'turn'],
    step: 'expect overflow result 0',
    en: 'The result reads 0. The result has run over its highest place.',
    de: 'Das Resultatwerk zeigt 0. Das Resultatwerk ist über seine höchste Stelle hinausgelaufen.',
  },
  {
    on: 'full',
    after: ['shift out'],
    step: 'expect parked',
    en: 'The carriage stands out of gear.',
    de: 'Der Schlitten steht außer Eingriff.',
  },
  { on: 'reverse', step: 'ask result', en: 'Write down the result.', de: 'Das Resultatwerk ablesen und aufschreiben.' },
  {
    on: 'reverse',
    step: 'ask setting counter result',
    en: 'Write down the setting, the counter and the result.',
    de: 'Das Einstellwerk, das Umdrehungszählwerk und das Resultatwerk ablesen und aufschreiben.',
  },
  { on: 'reverse', step: 'note "As it is: <b>, *x*"', en: 'As it is: <b>, *x*', de: 'As it is: <b>, *x*' },
  { on: 'reverse', step: 'caution "Wait!"', en: 'Wait!', de: 'Wait!' },
];

const textFor = ({ on, after = [], step }: Example): string =>
  (on === 'lift' ? LIFT : machine(on)) + sequence([...after, step]);

describe('each step', () => {
  for (const example of EXAMPLES) {
    const { on, after = [], step, en, de } = example;
    test(`${[...after, step].join('; ')} on ${on}`, () => {
      expect(told(textFor(example)).at(-1)).toBe(en);
      expect(told(textFor(example), 'de-AT').at(-1)).toBe(de);
    });
  }

  test('a step that holds or stands for others', () => {
    const text = `${machine('reverse')}sequence other (a = 1, b = 2) on stores\n  clear all\n${sequence([
      'repeat 4 { turn }',
      'repeat 1 { turn }',
      'run other',
      'run other (12.5, 4)',
      'multiply by 17.2',
      'multiply by 298 short',
      'divide',
      'divide to 2 short',
    ])}`;
    expect(toldAsWritten(text)).toEqual([
      'Do the following 4 times:',
      'Do the following once:',
      'Work the sequence other.',
      'Work the sequence other with 12.5 and 4.',
      'Multiply by 17.2.',
      'Multiply by 298 the short way.',
      'Divide by what is set on the levers.',
      'Divide the short way by what is set on the levers, down to position 2.',
    ]);
    expect(toldAsWritten(text, 'de')).toEqual([
      'Das Folgende 4-mal ausführen:',
      'Das Folgende einmal ausführen:',
      'Den Rechengang other ausführen.',
      'Den Rechengang other mit 12,5 und 4 ausführen.',
      'Mit 17,2 multiplizieren.',
      'Mit 298 abgekürzt multiplizieren.',
      'Durch die Zahl auf den Einstellhebeln dividieren.',
      'Durch die Zahl auf den Einstellhebeln abgekürzt dividieren, hinunter bis Stellung 2.',
    ]);
  });

  test('the end of a repetition', () => {
    const { report } = checkText(machine('reverse') + sequence(['repeat 4 { turn }', 'repeat 1 { turn }']));
    const ends = (language: string) =>
      report.sequences[0].section.steps.map(({ syntax }) =>
        plainText(repeatEnd(syntax as RepeatStep, sheetWords(language))),
      );
    expect(ends('en')).toEqual(['When this has been done 4 times, go on.', 'When this has been done once, go on.']);
    expect(ends('de')).toEqual(['Ist dies 4-mal ausgeführt, weitergehen.', 'Ist dies einmal ausgeführt, weitergehen.']);
  });

  test('figures are readings, numbers of turns and places are not', () => {
    const rows = rowsIn(machine('reverse') + sequence(['points setting 1', 'set 24.5', 'turn 3', 'expect result 735']));
    expect(rows.map((row) => sentenceOf(row, 'de'))).toEqual([
      ['Die Kommamarke stellen: eine Dezimalstelle im Einstellwerk.'],
      [{ reading: '24,5' }, ' auf den Hebeln (', { reading: '245' }, ': Hebel 3 bis 1) einstellen.'],
      ['Die Kurbel 3-mal drehen.'],
      ['Das Resultatwerk zeigt ', { reading: '735' }, '.'],
    ]);
  });

  test('a parameter without a value is told by its name', () => {
    const { report } = checkText(
      `${machine('full')}sequence trial (n = 2) on stores\n  set n at n\n  turn n\n  dial result n\n  shift to n\n  repeat n { }\n`,
    );
    const [{ section, profile, runs }] = report.sequences;
    if (!profile) throw new Error('no machine');
    const at = { before: runs[0].state, after: runs[0].state, profile };
    const sentences = section.steps.map(({ syntax }) => plainText(stepSentence(syntax, at, sheetWords('en'))));
    expect(sentences).toEqual([
      'Set n on the levers, its units on lever n.',
      'Turn the crank n times.',
      'Dial n on the result wheels.',
      'Leave the carriage in position 2.',
      'Do the following n times:',
    ]);
  });
});

describe('the wording of a machine', () => {
  const spoken = (
    name: MachineName,
    phrases: Readonly<Record<string, string>>,
    steps: readonly string[],
    language = 'en',
  ) =>
    told(
      machine(name, ...Object.entries(phrases).map(([step, text]) => `phrase ${step} "${text}"`)) + sequence(steps),
      language,
    );

  test('every gap', () => {
    const all = '[{figures}|{count}|{position}|{register}]';
    const phrases = Object.fromEntries(
      [
        'set',
        'dial result',
        'turn',
        'shift right',
        'shift to',
        'clear',
        'transfer result',
        'points',
        'ask',
        'expect',
      ].map((step) => [step, all]),
    );
    const steps = [
      'points setting 1 counter 0 result 1',
      'set 24.5',
      'dial result 10.5',
      'turn 2',
      'shift right 2',
      'shift to 2',
      'shift to 1',
      'clear setting counter',
      'ask counter result',
      'expect result 59.5 counter 0',
      'transfer result',
    ];
    expect(spoken('full', phrases, steps)).toEqual([
      '[1 decimal in the setting, no decimals in the counter, 1 decimal in the result|{count}|1|setting, counter and result].',
      '[24.5|{count}|1|setting].',
      '[10.5|{count}|1|result].',
      '[{figures}|twice|1|{register}].',
      '[{figures}|2 places|3|{register}].',
      '[{figures}|one place|2|{register}].',
      '[{figures}|one place|1|{register}].',
      '[{figures}|{count}|1|setting and counter].',
      '[{figures}|{count}|1|counter and result].',
      '[59.5 and 0|{count}|1|result and counter].',
      '[59.5|{count}|1|result].',
    ]);
    expect(spoken('full', phrases, steps, 'de').slice(1, 8)).toEqual([
      '[24,5|{count}|1|Einstellwerk].',
      '[10,5|{count}|1|Resultatwerk].',
      '[{figures}|zweimal|1|{register}].',
      '[{figures}|2 Stellen|3|{register}].',
      '[{figures}|eine Stelle|2|{register}].',
      '[{figures}|eine Stelle|1|{register}].',
      '[{figures}|{count}|1|Einstellwerk und Umdrehungszählwerk].',
    ]);
  });

  test('figures say their levers where they do not stand at the right', () => {
    expect(spoken('reverse', { set: 'Move the levers to {figures}!' }, ['set 12 at 3 and 5', 'set 5'])).toEqual([
      'Move the levers to 12 (levers 4 to 3) and 5 (lever 1)!',
      'Move the levers to 5! Set all other levers to 0.',
    ]);
  });

  test('a full stop is put where no mark closes it', () => {
    const end = (text: string) => spoken('reverse', { turn: text }, ['turn'])[0];
    expect(end('Turn {count}')).toBe('Turn once.');
    expect(end('Turn {count}.')).toBe('Turn once.');
    expect(end('  Turn   {count} ! ')).toBe('Turn once!');
    expect(end('Turn: \\"once.\\"')).toBe('Turn: "once."');
  });

  test('what it has no gap for stands behind it', () => {
    const phrases = {
      set: 'Move the levers.',
      turn: 'Turn ;',
      'shift right': 'Shift',
      'shift to': 'Run the carriage over',
      'dial result': 'Dial',
    };
    const steps = ['set 12', 'turn', 'turn 3', 'shift right', 'shift right 2', 'shift to 2', 'dial result 5'];
    expect(spoken('full', phrases, steps)).toEqual([
      'Move the levers (12).',
      'Turn;',
      'Turn (3 times);',
      'Shift.',
      'Shift (2 places).',
      'Run the carriage over (to position 2).',
      'Dial (5). Set all other result wheels to 0.',
    ]);
  });

  test('the most special one is taken, and no other step is told by one that says less', () => {
    const phrases = { turn: 'T{count}', 'shift right': 'R', mode: 'Throw the lever' };
    const reverse = ['set 1', 'turn', 'turn back', 'turn back until overdraw', 'shift right', 'shift left'];
    expect(spoken('reverse', phrases, reverse)).toEqual([
      'Set 1 on lever 1.',
      'Tonce.',
      'Turn the crank backwards once.',
      'Turn the crank backwards until the result goes below zero (nines appear at the left).',
      'R.',
      'Shift the carriage one place to the left, to position 1.',
    ]);
    expect(
      spoken('reverse', { ...phrases, 'turn back': 'B {count}', 'turn until overdraw': 'Until it rings' }, reverse),
    ).toEqual([
      'Set 1 on lever 1.',
      'Tonce.',
      'B once.',
      'Until it rings.',
      'R.',
      'Shift the carriage one place to the left, to position 1.',
    ]);
    expect(spoken('full', { ...phrases, 'mode add': 'Lever up' }, ['mode subtract', 'mode add'])).toEqual([
      'Throw the lever.',
      'Lever up.',
    ]);
    expect(spoken('halfStep', phrases, ['shift right half', 'shift left half'])).toEqual([
      'Shift the carriage half a place to the right: it now subtracts in position 1.',
      'Shift the carriage half a place to the left: it now adds in position 1.',
    ]);
    expect(spoken('halfStep', { 'shift right half': 'Tap it' }, ['shift right half'])).toEqual(['Tap it.']);
    expect(spoken('full', { shift: 'Move the carriage' }, ['shift right 2', 'shift left', 'shift out'])).toEqual([
      'Move the carriage (to position 3).',
      'Move the carriage (to position 2).',
      'Move the carriage (out of gear).',
    ]);
  });

  test('clearing: all of them by one wording, each by its own, or a general one', () => {
    const steps = ['clear all', 'clear counter result', 'clear counter'];
    const each = { 'clear setting': 'S', 'clear counter': 'C {register}', 'clear result': 'R {register}!' };
    expect(spoken('reverse', { clear: 'Pull the handle' }, steps)).toEqual([
      'Pull the handle (setting, counter and result).',
      'Pull the handle (counter and result).',
      'Pull the handle (counter).',
    ]);
    expect(spoken('reverse', each, steps)).toEqual(['S. C counter. R result!', 'C counter. R result!', 'C counter.']);
    expect(spoken('reverse', { ...each, 'clear all': 'A', clear: 'X' }, steps)[0]).toBe('A.');
    expect(spoken('reverse', { 'clear counter': 'C' }, steps)).toEqual([
      'Clear everything: the setting, the counter and the result.',
      'Clear the counter and the result.',
      'C.',
    ]);
  });

  test('where it would say something else than what happens, it is left aside', () => {
    const tap = { 'mode subtract': 'Tap right', 'mode add': 'Tap left', 'turn until stop': 'Turn to the end' };
    expect(
      spoken('halfStep', tap, ['mode subtract', 'mode subtract', 'mode add', 'shift out', 'mode subtract']),
    ).toEqual([
      'Tap right.',
      'Leave the drive at subtract.',
      'Tap left.',
      'Shift the carriage to the left, out of gear.',
      'Set the drive to subtract.',
    ]);
    const division = ['set 6', 'shift to 3', 'mode subtract', 'auto-divide on', 'divide to 2'];
    expect(spoken('halfStep', tap, division).at(-1)).toBe(
      'Turn the crank until the carriage has moved on to position 1.',
    );
    expect(
      spoken('reverse', { turn: 'Turn {count}', 'shift left': 'Shift {count}' }, ['turn 0', 'shift left']),
    ).toEqual(['Do not turn the crank.', 'Leave the carriage in position 1.']);
  });

  test('hostile text stays text', () => {
    const phrase =
      '<img src=x onerror=alert(1)> **{count}** `{__proto__}` {constructor} {{count}} $& {unknown} </script>';
    const [row] = rowsIn(machine('reverse', `phrase turn "${phrase}"`) + sequence(['turn 3']));
    expect(sentenceOf(row, 'en')).toEqual([
      '<img src=x onerror=alert(1)> **3 times** `{__proto__}` {constructor} {3 times} $& {unknown} </script>.',
    ]);
  });

  test('a wording without a word is none, and prose keeps its own', () => {
    expect(
      spoken('reverse', { turn: '', set: '...', note: 'no', caution: 'no' }, ['turn', 'set 1', 'note "yes"']),
    ).toEqual(['Turn the crank once.', 'Set 1 on lever 1.', 'yes']);
  });
});

describe('readings', () => {
  const readings = (text: string, language: string, registers?: ('setting' | 'counter' | 'result')[]) =>
    rowsIn(text).map(({ at }) =>
      readingsOf(at, sheetWords(language), registers).map((reading) => plainText(reading).replaceAll('\u202f', ' ')),
    );

  test('what has changed, at its marker, and the carriage if it moved', () => {
    const steps = [
      'points setting 1 counter 1 result 2',
      'set 24.5',
      'turn 2',
      'shift right',
      'expect result 4.90',
      'turn back 9',
      'points result 3',
    ];
    expect(readings(machine('reverse') + sequence(steps), 'en')).toEqual([
      [],
      ['setting 24.5'],
      ['counter 0.2', 'result 4.90'],
      ['carriage in position 2'],
      [],
      ['counter 991.2', 'result 999 784.40'],
      ['result 99 978.440'],
    ]);
    expect(readings(machine('reverse') + sequence(steps), 'de')[2]).toEqual([
      'Umdrehungszählwerk 0,2',
      'Resultatwerk 4,90',
    ]);
    expect(readings(machine('full') + sequence(['shift out']), 'de')).toEqual([['Schlitten außer Eingriff']]);
  });

  test('named registers alone, but none that the machine has not', () => {
    const text = machine('adder') + sequence(['set 12', 'turn 2']);
    expect(readings(text, 'en', ['counter', 'result'])).toEqual([['result 0'], ['result 24']]);
    expect(readings(text, 'en', [])).toEqual([[], []]);
  });

  test('marked figures as their sum and as they stand', () => {
    const text = machine('signed') + sequence(['turn back 2', 'shift to 3', 'turn 3']);
    expect(readings(text, 'en')).toEqual([
      ['counter −2'],
      ['carriage in position 3'],
      ['counter 298 (on the wheels 3 0 −2)'],
    ]);
  });

  test('the figures are spans of their own', () => {
    const [row] = rowsIn(machine('reverse') + sequence(['set 12']));
    expect(readingsOf(row.at, sheetWords('en'))).toEqual([['setting ', { reading: '12' }]]);
  });
});

describe('whatever is run', () => {
  const check = (text: string): number => {
    const rows = rowsIn(text);
    for (const language of SHEET_LANGUAGES) {
      for (const row of rows) {
        const spans = sentenceOf(row, language);
        const sentence = plainText(spans);
        expect(sentence, text).toMatch(/\S.*[.!?:;,…]["'”“»«’)\]]*$/su);
        expect(sentence, text).not.toMatch(/undefined|NaN|\[object| {2}|^ | $/);
        expect(spans.some((span, i) => typeof span === 'string' && typeof spans[i + 1] === 'string')).toBe(false);
        for (const reading of readingsOf(row.at, sheetWords(language))) {
          expect(plainText(reading)).toMatch(/\S$/);
          expect(plainText(reading)).not.toMatch(/undefined|NaN| {2}/);
        }
      }
    }
    return rows.length;
  };

  test('a sentence that is closed by a mark', () => {
    let checked = 0;
    fc.assert(
      fc.property(trials(), ([plan, deeds]) => {
        const more =
          '  points setting 1 result 1\n  expect result 0 carriage 1 parked overflow\n  ask setting result\n  expect result -1\n';
        checked += check(trialText(plan, deeds) + more);
      }),
      { numRuns: 300 },
    );
    expect(checked).toBeGreaterThan(1500);
  });

  test('whatever a machine says of its steps', () => {
    let checked = 0;
    const keys = fc.constantFrom(
      'set',
      'turn',
      'turn back',
      'turn until overdraw',
      'shift',
      'shift right',
      'shift to',
      'clear',
      'clear counter',
      'clear all',
      'transfer result',
      'dial result',
      'mode',
      'mode subtract',
      'count',
      'auto-clear on',
      'auto-divide',
      'expect',
      'ask',
      'points',
    );
    const phrases = fc.dictionary(
      keys,
      anyText.filter((text) => !/undefined|NaN/.test(text)),
    );
    fc.assert(
      fc.property(trials(), phrases, ([plan, deeds], said) => {
        const lines = Object.entries(said).map(([step, text]) => `  phrase ${step} ${text}\n`);
        const text = trialText(plan, deeds).replace(machineText(plan), (own) => own + lines.join(''));
        fc.pre(
          checkText(text).findings.every(
            ({ code }) => code !== 'syntax' && code !== 'duplicate-name' && code !== 'bad-profile',
          ),
        );
        checked += check(text);
      }),
      { numRuns: 300 },
    );
    expect(checked).toBeGreaterThan(800);
  });
});
