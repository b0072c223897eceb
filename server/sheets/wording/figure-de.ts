/** What stands on and beside the register figure, in German. */
import { type figure as english, rangesOf } from './figure-en.js';

const places = (list: readonly number[]): string =>
  list.length === 1 ? `Stelle ${list[0]}` : `den Stellen ${joined(list)}`;

function joined(list: readonly number[]): string {
  const parts = rangesOf(list).flatMap(([from, to]) =>
    to - from > 1 ? [`${from} bis ${to}`] : from === to ? [`${from}`] : [`${from}`, `${to}`],
  );
  return parts.length > 1 ? `${parts.slice(0, -1).join(', ')} und ${parts.at(-1)}` : (parts[0] ?? '');
}

const NAMES = { setting: 'Einstellwerk', counter: 'Umdrehungszählwerk', result: 'Resultatwerk' } as const;

export const figure: typeof english = {
  registers: {
    setting: ['Einstellwerk'],
    counter: ['Umdrehungs-', 'zählwerk'],
    result: ['Resultatwerk'],
  },
  outOfGear: 'außer Eingriff',
  position: (position) => (position === 0 ? 'außer Eingriff' : `Stellung ${position}`),
  moved: (from, to) =>
    from === 0 ? `außer Eingriff → Stellung ${to}` : `Stellung ${from} → ${to === 0 ? 'außer Eingriff' : to}`,

  devices: {
    drive: { name: 'Antrieb', off: 'Addition', on: 'Subtraktion' },
    crank: { name: 'Kurbel', off: 'gesenkt (addiert)', on: 'gehoben (subtrahiert)' },
    count: { name: 'Zählung', off: 'Plus', on: 'Minus' },
    autoClear: { name: 'Löschung der Einstellhebel', off: 'aus', on: 'ein' },
    autoDivide: { name: 'automatische Division', off: 'aus', on: 'ein' },
  },
  carry: 'Zehnerübertragung',
  carryTo: (from, to) => (from === to ? `Stelle ${to}` : `Stellen ${from} bis ${to}`),
  carryNowhere: 'keine',
  bell: 'die Glocke hat geläutet',
  legend: 'Fett und mit einem Balken darunter: was sich geändert hat.',

  spoken: {
    title: (machine) => `Werke der Maschine ${machine}`,
    carriage: (position) =>
      position === 0
        ? 'Der Schlitten steht außer Eingriff: Kein Hebel treibt ein Rad an.'
        : `Der Schlitten steht in Stellung ${position}.`,
    carriageBefore: (position) =>
      position === 0 ? 'Vorher stand er außer Eingriff.' : `Vorher stand er in Stellung ${position}.`,
    levers: (last, from, to) =>
      last === 1
        ? `Hebel 1 treibt Stelle ${from} des Resultatwerks an.`
        : `Die Hebel 1 bis ${last} treiben die Stellen ${from} bis ${to} des Resultatwerks an.`,
    leversBeyond: (from, to) =>
      from === to ? `Unter Hebel ${from} steht kein Rad.` : `Unter den Hebeln ${from} bis ${to} stehen keine Räder.`,
    halfRight: 'Der Schlitten steht eine halbe Stelle weiter rechts: Seine Räder werden rückwärts angetrieben.',
    reading: (register, reading) => `${NAMES[register]} ${reading}`,
    standsFor: (reading) => `Komplement von ${reading}`,
    wheels: (figures) => `Räder ${figures}`,
    before: (reading) => `vorher ${reading}`,
    markerMoved: (decimals) =>
      `Kommamarke verschoben, jetzt ${decimals === 1 ? '1 Dezimalstelle' : `${decimals} Dezimalstellen`}`,
    changed: (list) => `geändert in ${places(list)}`,
    device: (name, now, before) =>
      `${name.charAt(0).toUpperCase()}${name.slice(1)}: ${now}${before === undefined ? '' : `, vorher ${before}`}.`,
    carry: (to) =>
      to === undefined
        ? 'Die Zehnerübertragung erreicht kein weiteres Rad.'
        : `Die Zehnerübertragung endet bei Stelle ${to}.`,
    bell: 'Die Glocke hat geläutet.',
  },
};
