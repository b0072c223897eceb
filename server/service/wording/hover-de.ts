/** What hovers say, in German. */
import type { hover as english } from './hover-en.js';

const count = (n: number, one: string, many: string): string => `${n} ${n === 1 ? one : many}`;
const turns = (n: number): string => count(n, 'Kurbelumdrehung', 'Kurbelumdrehungen');
const OF = { setting: 'des Einstellwerks', counter: 'des Umdrehungszählwerks', result: 'des Resultatwerks' } as const;

/** What a run moves; what it leaves alone is not mentioned. */
export const moves = (made: number, shifts: number, levers = 0): string[] => [
  ...(made > 0 ? [turns(made)] : []),
  ...(shifts > 0 ? [`${count(shifts, 'Stellung', 'Stellungen')} gerückt`] : []),
  ...(levers > 0 ? [`${levers} Hebel gestellt`] : []),
];

/** The same behind a colon, or nothing. */
export const moved = (made: number, shifts: number, levers: number): string => {
  const parts = moves(made, shifts, levers);
  return parts.length > 0 ? `: ${parts.join(', ')}` : '';
};

export const hover: typeof english = {
  profile: (p) => [
    `${count(p.setting, 'Einstellhebel', 'Einstellhebel')}, ${p.counter > 0 ? `Umdrehungszählwerk mit ${count(p.counter, 'Stelle', 'Stellen')}` : 'kein Umdrehungszählwerk'}, Resultatwerk mit ${count(p.result, 'Stelle', 'Stellen')}, ${count(p.carriage, 'Schlittenstellung', 'Schlittenstellungen')}.`,
    ...(p.counter > 0
      ? [
          {
            carry: 'Das Umdrehungszählwerk hat Zehnerübertragung durch alle Stellen.',
            plain: 'Das Umdrehungszählwerk hat keine Zehnerübertragung: Jedes Rad zählt für sich.',
            signed:
              'Das Umdrehungszählwerk hat keine Zehnerübertragung; seine Räder zeigen −9 bis 9, negative Ziffern gekennzeichnet.',
          }[p.counterCarry],
          {
            follow: 'Eine addierende Umdrehung zählt eins vor, eine subtrahierende eins zurück.',
            lever:
              'Eine addierende Umdrehung zählt eins vor, eine subtrahierende eins zurück; ein Umschalthebel kehrt das um.',
            first:
              'Die erste Umdrehung nach dem Löschen des Umdrehungszählwerks zählt vor; weitere in ihrer Richtung zählen vor, die anderen zurück.',
          }[p.count],
        ]
      : []),
    p.reach === undefined
      ? 'Die Zehnerübertragung des Resultatwerks geht durch alle Stellen.'
      : `Die Zehnerübertragung des Resultatwerks endet ${p.reach} Stellen von der Stellung des Schlittens an.`,
    {
      reverse: 'Die Kurbel dreht in beiden Richtungen; rückwärts wird subtrahiert.',
      lever: 'Die Kurbel dreht in einer Richtung; ein Umschalthebel stellt den Antrieb auf Subtraktion.',
      'half-step':
        'Die Kurbel dreht in einer Richtung; eine halbe Stellung weiter rechts wird der Schlitten rückwärts angetrieben.',
      lift: 'Die Kurbel dreht in einer Richtung; wird sie gehoben, steht der Antrieb auf Subtraktion.',
      none: 'Die Maschine addiert nur.',
    }[p.subtract],
    ...(p.dials ? ['Die Ziffernräder des Resultatwerks lassen sich von Hand einstellen.'] : []),
    ...(p.park ? ['Einen Schritt links von Stellung 1 steht der Schlitten außer Eingriff.'] : []),
    ...(p.bell ? ['Eine Glocke läutet, wenn das Resultatwerk überläuft oder unter null kommt.'] : []),
    ...(p.autoClear ? ['Eine Taste stellt die Einstellhebel nach jeder Umdrehung auf null.'] : []),
    ...(p.autoDivide ? ['Die Maschine dividiert automatisch.'] : []),
    ...(p.transferResult === 'anywhere' ? ['Rückübertragung vom Resultatwerk auf die Einstellhebel.'] : []),
    ...(p.transferResult === 'at 1' ? ['Rückübertragung vom Resultatwerk auf die Einstellhebel in Stellung 1.'] : []),
    ...(p.transferCounter ? ['Rückübertragung vom Umdrehungszählwerk auf die Einstellhebel.'] : []),
    `Aufwand: ${p.effort.turn} je Umdrehung, ${p.effort.shift} je Stellung, um die der Schlitten rückt, ${p.effort.lever} je Hebel, der gestellt wird.`,
  ],
  cannotBeBuilt: 'Die Zeilen dieser Maschine widersprechen sich: Auf ihr wird nichts gekurbelt.',
  like: (name) => `Wie ${name}, bis auf die Zeilen, die hier stehen.`,
  onMachine: (name) => `Auf ${name}.`,
  notRun: 'Er wird nicht ausgeführt: Es ist keine Maschine dafür da.',
  effort: (cost, made, shifts, levers) => `Aufwand ${cost}${moved(made, shifts, levers)}.`,
  brokeOff: 'Der Lauf bricht ab.',
  cases: (n) => (n === 0 ? 'Keine Fälle außer den Vorgaben.' : `${count(n, 'Fall', 'Fälle')} außer den Vorgaben.`),
  parameterOf: (name, sequence) => `${name} ist ein Parameter von ${sequence}.`,
  inDefaults: (value) => `Vorgabe: ${value}`,
  inCase: (n, value) => `Fall ${n}: ${value}`,
  shownCase: (n, values) => `Fall ${n}: ${values}.`,
  more: (n) => `und ${n} weitere`,
  machines: (list) => `Maschinen: ${list}`,
  sequences: (list) => `Rechengänge: ${list}`,
  declaresNothing: 'Darin stehen weder Maschinen noch Rechengänge.',
  unknown: (name) => `Hier ist nichts mit dem Namen ${name} bekannt.`,
  label: (name, sequence) => `${name} ist eine Ablesung von ${sequence}.`,
  expected: (what, expected, found) => `${what}: erwartet ${expected}, es steht ${found}`,
  happens: (what) => `${what}: erwartet, und so ist es`,
  happensNot: (what, found) => `${what}: erwartet, aber: ${found}`,
  events: { bell: 'Glocke', overflow: 'Überlauf', overdraw: 'unter null', parked: 'außer Eingriff' },
  carriage: 'Schlitten',
  asCarriedOut: (step) => `Ausgeführt als ${step}.`,
  standsFor: (steps) => `Steht für ${steps}`,
  turns: (n) => `Zusammen ${turns(n)}.`,
  times: (times) => `${times}-mal ausgeführt; dies ist das letzte Mal.`,
  notReached: 'Der Lauf kommt nicht bis zu diesem Schritt.',
  goal: (wanted, reading) => `Ziel ${wanted}, es steht ${reading}`,
  met: { exact: 'genau erreicht', 'cut off': 'erreicht, abgeschnitten', rounded: 'erreicht, gerundet' },
  missed: 'verfehlt',
  caution: 'Vorsicht',
  form: 'Schreibweise',
  placeName: (exponent, figure) => {
    const names = ['Einer', 'Zehner', 'Hunderter', 'Tausender', 'Zehntausender', 'Hunderttausender'];
    const parts = ['', 'Zehntel', 'Hundertstel', 'Tausendstel', 'Zehntausendstel', 'Hunderttausendstel', 'Millionstel'];
    const name = exponent < 0 ? parts[-exponent] : names[exponent];
    if (exponent === 6) return `${figure} ${figure === 1 ? 'Million' : 'Millionen'}`;
    return name === undefined ? `${figure} · 10^${exponent}` : `${figure} ${name}`;
  },
  lever: (what, lever) => `${what}: Einstellhebel ${lever}.`,
  drives: (position, place) => `In Stellung ${position} treibt er die Stelle ${place} des Resultatwerks.`,
  drivesNone: (position) => `In Stellung ${position} steht er über keinem Ziffernrad des Resultatwerks.`,
  drivesNothing: 'Der Schlitten steht außer Eingriff: Der Hebel treibt nichts.',
  placeOf: (what, place, register) => `${what}: Stelle ${place} ${OF[register]}.`,
  turnsIn: (what, n, position) => `${what}: ${n === 0 ? 'keine Kurbelumdrehung' : turns(n)} in Stellung ${position}.`,
  separator: ', ',
};
