/** Sheets written by hand with a block of every kind, beside the figures of a real run. For tests of formats, and to be looked at. */
import type { Block, FigureData, Sheet, SheetKind, SheetStep, Text } from '../../server/sheets/model.js';
import { rowsIn } from './told.js';

const BAY = `machine pinwheel-10 "Reversing pinwheel machine with 10 levers"
  setting 10
  counter 8
  result 13
  carriage 8
  subtract reverse
  bell
  transfer result at 1
sequence bay-area "Area of one bay" on pinwheel-10
  points setting 1 counter 1 result 2
  clear all
  set 24.5
  turn 2
  shift right
  turn 7
  shift right
  turn
`;

/** What each step of the run changes: markers, clearing, setting, and so on. */
const figures = (): FigureData[] =>
  rowsIn(BAY).map(({ at }) => ({ profile: at.profile, before: at.before, after: at.after, rang: false }));

/** Every kind of piece in one line. */
export const EVERY_SPAN: Text = [
  'Set ',
  { reading: '24.5' },
  ' by ',
  { strong: 'levers 1 to 3' },
  ' (',
  { code: 'set 24.5' },
  ') and note ',
  { blank: 6, label: 'the setting' },
  '.',
];

/** The bay's area on one sheet, with every kind of block. */
export function specimen(kind: SheetKind = 'operating', texts: readonly Text[] = []): Sheet {
  const [points, cleared, set, two, , seven, , last] = figures();
  const steps: SheetStep[] = [
    {
      number: '1',
      text: ['Put the decimal markers: 1 in the setting, 1 in the counter, 2 in the result.'],
      figure: points,
    },
    { number: '2', text: ['Clear the setting, the counter and the result.'], figure: cleared },
    {
      number: '3',
      text: ['Set ', { strong: '24.5' }, ': figure 2 on lever 3, 4 on lever 2, 5 on lever 1.'],
      readings: [['setting ', { reading: '24.5' }]],
      figure: set,
    },
    {
      number: '4',
      text: ['Turn the crank ', { strong: '2' }, ' times forwards.'],
      readings: [
        ['counter ', { reading: '0.2' }],
        ['result ', { reading: '4.90' }],
      ],
      figure: two,
      remarks: [
        { is: 'caution', text: ['Do not let go of the crank before it has come to rest in its home position.'] },
        { is: 'note', text: ['The multiplier 17.2 is worked off from its last figure on.'] },
      ],
    },
    { number: '5', text: ['For the figure 7 of the multiplier:'] },
    { number: '5a', text: ['Shift the carriage right by 1, to position 2.'] },
    {
      number: '5b',
      text: ['Turn the crank ', { strong: '7' }, ' times forwards.'],
      readings: [
        ['counter ', { reading: '7.2' }],
        ['result ', { reading: '176.40' }],
      ],
      figure: seven,
    },
    {
      number: '6',
      text: ['Shift right by 1 more and turn once. Read the result.'],
      readings: [
        ['counter ', { blank: 8, label: 'counter' }],
        ['result ', { blank: 13, label: 'result' }],
      ],
      figure: last,
    },
  ];
  const blocks: Block[] = [
    {
      is: 'cautions',
      title: 'Before you begin',
      items: [
        ['Keep fingers, hair and sleeves out of the mechanism; parts are under spring tension.'],
        ['Never force a crank that has jammed: find out why it stands still.'],
        ['What the machine’s own manual says comes first.'],
      ],
    },
    { is: 'paragraph', text: ['One bay of the glasshouse is 24.5 m long and 17.2 m wide. ', ...EVERY_SPAN] },
    { is: 'heading', level: 2, text: ['The machine'] },
    {
      is: 'fields',
      fields: [
        { label: 'Machine', value: 'Reversing pinwheel machine with 10 levers' },
        { label: 'Setting · counter · result', value: '10 · 8 · 13 places' },
        { label: 'Serial number' },
        { label: 'Date' },
      ],
    },
    { is: 'heading', level: 2, text: ['Steps'] },
    { is: 'steps', steps },
    { is: 'note', text: ['A reading with a point is read at the marker: ', { reading: '421.40' }, '.'] },
    { is: 'heading', level: 3, text: ['Where it went wrong'] },
    { is: 'list', items: [['The bell rang: clear all and begin again.'], EVERY_SPAN] },
    { is: 'caution', text: ['If the carriage does not move freely, stop.'] },
    { is: 'page' },
    { is: 'heading', level: 2, text: ['Proof'] },
    {
      is: 'table',
      caption: 'Readings to be taken at the machine',
      columns: [
        { head: 'Step' },
        { head: 'Should be', isFigures: true },
        { head: 'Reads', blank: 42 },
        { head: 'Right', blank: 8 },
        { head: 'Remark', blank: 40 },
      ],
      rows: Array.from({ length: 34 }, (_, i): Text[] => [
        [`Turn ${i + 1}`],
        [{ reading: `${(24.5 * (i + 1)).toFixed(1)}` }],
        [],
        [],
        i === 0 ? ['as set'] : [],
      ]),
    },
    { is: 'heading', level: 3, text: ['After the last turn'] },
    { is: 'figure', figure: last, caption: ['The machine at the end: result ', { reading: '421.40' }, '.'] },
    { is: 'page' },
    {
      is: 'table',
      caption: 'Nothing else',
      columns: [{ head: '' }, { head: 'Reading', isFigures: true }],
      rows: [[['At the end'], [{ reading: '421.40' }]]],
    },
    ...texts.map((text): Block => ({ is: 'paragraph', text })),
    { is: 'paragraph', text: ['Made from bay.crank; readings are those of the run.'], isFine: true },
  ];
  return {
    kind,
    language: 'en',
    title: 'Floor area of a bay',
    subtitle: 'Area of one bay on the office machine',
    blocks,
    foot: 'bay.crank',
  };
}
