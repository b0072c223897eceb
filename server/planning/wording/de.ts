/**
 * What is said of plans, in German: what the operator does and why, what stands in the way, what would do.
 *
 * Advice is given in the infinitive, as it is in the books that came with such machines.
 */
import type { Effort } from '../../sequence/effort.js';
import { shortNumber } from '../../sequence/wording/de.js';
import type { ListLimit, ListRemark } from '../lists/order.js';
import { isRootMethod, type Limit, type Method, type Reason, type Remark, type Topic, type WayOut } from '../order.js';
import { listLimit, listRemark } from './de-lists.js';
import type { Heading } from './en.js';

/** The text of a `note` in the sequence: what the operator does and why. */
export const remarkText = (remark: ListRemark): string => listRemark(remark) ?? ownRemark(remark as Remark);

function ownRemark(remark: Remark): string {
  switch (remark.is) {
    case 'sum-of-products':
      return `Die ${remark.terms} Produkte sammeln sich im Resultatwerk: dazwischen nicht löschen.`;
    case 'dividend':
      return 'Den Dividenden ins Resultatwerk bringen und die Umdrehung dafür aus dem Umdrehungszählwerk löschen.';
    case 'divide':
      return 'Die eingestellte Zahl von links nach rechts Stelle für Stelle abziehen, so oft es geht: Das Umdrehungszählwerk nimmt die Ziffern auf.';
    case 'half-unit':
      return 'Zuerst eine halbe Einheit der letzten Dezimalstelle addieren: Dann ist die abgeschnittene Zahl gerundet.';
    case 'root-climbs':
      return 'Das Resultatwerk steigt durch Addieren auf die Zahl zu: Was ihm am Ende fehlt, ist der Rest.';
    case 'write-down':
      return `${shortNumber(remark.reading)} im ${WORK[remark.register]} ablesen und aufschreiben: Die Zahl wird noch gebraucht.`;
    case 'building-up':
      return `${shortNumber(remark.dividend)} im Resultatwerk aufbauen, von der höchsten Stelle abwärts: Das Umdrehungszählwerk zeigt den Quotienten.`;
    case 'root':
      return `Quadratwurzel aus ${shortNumber(remark.of)}${remark.method === 'automatic' ? '' : `, ${ROOT_WAY[remark.method]}`}.`;
    case 'first-guess':
      return `Mit einer Zahl nahe der Wurzel beginnen: ${shortNumber(remark.guess)}.`;
    case 'power':
      return `${shortNumber(remark.base)} hoch ${remark.exponent}, über die ${remark.chain.length > 1 ? `Potenzen ${list(remark.chain.map(String))}` : `Potenz ${remark.chain.join('')}`}.`;
    case 'complement':
      return `${shortNumber(remark.of)} abziehen, indem das Komplement in allen Stellen des Resultatwerks addiert wird.`;
    case 'in-parts':
      return `${shortNumber(remark.number)} hat mehr Ziffern, als Hebel da sind: Die Zahl wird in zwei Teilen genommen, ${list(remark.parts.map(shortNumber))}.`;
    case 'fair-copy':
      return `Das Ergebnis noch einmal einstellen, damit es für sich steht, mit ${decimals(remark.decimals)}.`;
    case 'points-moved':
      return `Der Quotient bleibt gleich, wenn beide Kommas ${count(remark.places, 'Stelle', 'Stellen')} nach rechts rücken: ${shortNumber(remark.over)} geteilt durch ${shortNumber(remark.under)}.`;
    case 'columns-apart':
      return `Beide Zahlen zugleich einstellen, ${count(remark.places, 'Stelle', 'Stellen')} auseinander, damit ihre Summen getrennt bleiben.`;
  }
}

const ROOT_WAY: Readonly<Record<Exclude<Method, 'automatic'>, string>> = {
  restoring: 'durch Division mit Zurückdrehen',
  'non-restoring': 'durch Division ohne Zurückdrehen',
  'building-up': 'durch Aufbauen',
  'odd-numbers': 'durch Abziehen der ungeraden Zahlen 1, 3, 5 und so weiter',
  'five-fold': 'durch Abziehen von 5, 15, 25 und so weiter vom Fünffachen der Zahl',
  'divide-and-average': 'durch Division durch eine nahe Zahl und Mitteln',
};

/** What stands in the way: one sentence or two about the machine, or about what was asked. */
export const limitText = (limit: ListLimit): string => listLimit(limit) ?? ownLimit(limit as Limit);

function ownLimit(limit: Limit): string {
  switch (limit.is) {
    case 'places':
      return placesText(limit);
    case 'below-zero':
      return `Das ${WORK[limit.register]} käme unter null.`;
    case 'runs-over':
      return `Das ${WORK[limit.register]} liefe oben über.`;
    case 'reach':
      return `Die Zehnerübertragung endet ${count(limit.places, 'Stelle', 'Stellen')} hinter der Stellung des Schlittens, und ein Übertrag ginge verloren.`;
    case 'no-counter':
      return 'Die Maschine hat kein Umdrehungszählwerk.';
    case 'cannot-subtract':
      return 'Die Maschine addiert nur, und hier ist zu subtrahieren.';
    case 'quotient-as-complement':
      return 'Subtrahierende Umdrehungen zählen hier rückwärts: Der Quotient stünde als Komplement im Umdrehungszählwerk.';
    case 'parameters':
      return 'Kein Rechengang stimmt für alle Werte der Parameter zugleich.';
    case 'not-met':
      return 'Es fand sich kein Rechengang, der diesen Wert in ein Werk bringt.';
    case 'method':
      return `Auf dieser Maschine nicht möglich: ${methodName[limit.method]}.`;
    case 'nothing-for-method':
      return isRootMethod(limit.method)
        ? `Hier ist keine Quadratwurzel zu ziehen: ${methodName[limit.method]} entfällt.`
        : `Hier ist nichts zu teilen: ${methodName[limit.method]} entfällt.`;
    case 'no-value':
      return NO_VALUE[limit.why];
  }
}

function placesText({ register, has, needs }: Extract<Limit, { is: 'places' }>): string {
  switch (register) {
    case 'setting':
      return `Die Maschine hat ${has} Einstellhebel, nötig sind mindestens ${needs}.`;
    case 'carriage':
      return `Der Schlitten hat ${count(has, 'Stellung', 'Stellungen')}, nötig sind mindestens ${needs}.`;
    default:
      return has === 0 && register === 'counter'
        ? 'Die Maschine hat kein Umdrehungszählwerk.'
        : `Das ${WORK[register]} hat ${count(has, 'Stelle', 'Stellen')}, nötig sind mindestens ${needs}.`;
  }
}

const NO_VALUE: Readonly<Record<Extract<Limit, { is: 'no-value' }>['why'], string>> = {
  'divides-by-zero': 'Das hat keinen Wert: Es wird durch null geteilt.',
  'root-of-negative': 'Das hat keinen Wert: Aus einer negativen Zahl gibt es keine Quadratwurzel.',
  'power-not-whole':
    'Das hat hier keinen Wert: Der Exponent muss eine ganze Zahl sein; für eine Wurzel sqrt( ) schreiben.',
  'too-large': 'Das hat mehr Ziffern, als irgendeine Maschine fassen könnte.',
  'unknown-name': 'Das hat keinen Wert: Es nennt etwas, das hier nicht bekannt ist.',
};

/** What would do instead. */
export function wayOutText(wayOut: WayOut): string {
  switch (wayOut.is) {
    case 'fewer-decimals':
      return wayOut.decimals === 0 ? 'Ohne Dezimalstellen geht es.' : `Mit ${decimals(wayOut.decimals)} geht es.`;
    case 'split':
      return `${shortNumber(wayOut.number)} zerlegen in ${list(wayOut.parts.map(shortNumber))}, mit jedem Teil für sich rechnen und die Ergebnisse addieren.`;
  }
}

/** Which of the machines that were tried can do it. */
export const othersText = (machines: readonly string[]): string =>
  machines.length === 0
    ? 'Auch auf keiner der anderen Maschinen hier geht es.'
    : `Maschinen, auf denen es geht: ${list(machines)}.`;

/** Ways of working, as somebody who asks for one would call them. */
export const methodName: Readonly<Record<Method, string>> = {
  automatic: 'automatische Division',
  restoring: 'Division mit Zurückdrehen',
  'non-restoring': 'Division ohne Zurückdrehen',
  'building-up': 'aufbauende Division',
  'odd-numbers': 'Wurzel mit ungeraden Zahlen',
  'five-fold': 'Wurzel mit Fünfern',
  'divide-and-average': 'Wurzel durch Dividieren und Mitteln',
};

/** A way of doing a part of the work, as a table of alternatives names it. */
export function wayText(way: string): string {
  const points = /^points (\d+) (\d+) (\d+)$/.exec(way);
  if (points) return `Dezimalstellen: Einstellwerk ${points[1]}, Zählwerk ${points[2]}, Resultatwerk ${points[3]}`;
  const list = /^set (.+), (?:turn|crank (.+))$/.exec(way);
  if (list) return `${partsText(list[1])} einstellen, ${list[2] ? `mit ${partsText(list[2])}` : 'einmal'} kurbeln`;
  const factors = /^set (\S+) crank (\S+)$/.exec(way);
  if (factors) return `${shortNumber(factors[1])} einstellen, mit ${shortNumber(factors[2])} multiplizieren`;
  return WAYS.get(way) ?? methodName[way as Method] ?? way;
}

const partsText = (parts: string): string => parts.replaceAll(' and ', ' und ').replaceAll(' at ', ' ab Stelle ');

const WAYS: ReadonlyMap<string, string> = new Map([
  ['points each', 'für jedes Produkt andere Dezimalstellen'],
  ['accumulate', 'Glied für Glied im Resultatwerk addiert'],
  ['products written down', 'abzuziehende Produkte zuerst aufgeschrieben'],
  ['distribute', 'mit ausmultiplizierten Klammern'],
  ['pass back', 'auf die Einstellhebel rückübertragen'],
  ['write down', 'aufgeschrieben und wieder eingestellt'],
  ['repeated', 'mal um mal mit der Zahl multipliziert'],
  ['shortest chain', 'über die kürzeste Folge von Potenzen'],
  ['product', 'Dividend im Resultatwerk errechnet'],
  ['dial', 'Dividend im Resultatwerk von Hand gestellt'],
  ['set and turn', 'Dividend eingestellt und hineingekurbelt'],
]);

/** What was decided, above a table of alternatives. */
export const topicName: Readonly<Record<Topic, string>> = {
  layout: 'wo die Zahlen stehen',
  dividend: 'wie der Dividend ins Resultatwerk kommt',
  division: 'wie dividiert wird',
  root: 'wie die Wurzel gezogen wird',
  power: 'wie potenziert wird',
  product: 'welcher Faktor eingestellt und welcher gekurbelt wird',
  form: 'in welcher Form gerechnet wird',
  list: 'wie die Liste durchgerechnet wird',
};

/** Why a way was taken, below a table of alternatives. */
export const reasonText: Readonly<Record<Reason, string>> = {
  only: 'Es ist hier der einzige gangbare Weg.',
  written: 'So sind die wenigsten Zahlen aufzuschreiben und wieder einzustellen; erst danach zählt der Aufwand.',
  effort: 'Es kostet am wenigsten.',
  steps: 'Es kostet nicht mehr als die anderen, in den wenigsten Schritten.',
  'by-itself': 'Was die Maschine selbst tut, wird ihr überlassen, was immer es von Hand kostet.',
};

/** Headings of tables. */
export const headings: Readonly<Record<Heading, string>> = {
  way: 'Weg',
  machine: 'Maschine',
  answer: 'Ergebnis',
  register: 'im',
  figures: 'Ziffern',
  turns: 'Umdrehungen',
  shifts: 'Rücken',
  levers: 'Hebel',
  cost: 'Aufwand',
  written: 'zu notieren',
  chosen: 'gewählt',
};

/** How an answer stands to the value that was asked for. */
export const answerText: Readonly<Record<'exact' | 'cutOff' | 'rounded', string>> = {
  exact: 'genau',
  cutOff: 'abgeschnitten',
  rounded: 'gerundet',
};

/** What a plan costs. */
export const effortText = ({ turns, shifts, levers, cost }: Effort, written: number): string =>
  `Aufwand ${cost}: ${count(turns, 'Kurbelumdrehung', 'Kurbelumdrehungen')}, ${count(shifts, 'Stellung', 'Stellungen')} gerückt, ${levers} Hebel gestellt${written > 0 ? `, ${count(written, 'Zahl', 'Zahlen')} zu notieren` : ''}`;

const WORK = { setting: 'Einstellwerk', counter: 'Umdrehungszählwerk', result: 'Resultatwerk' } as const;

const count = (n: number, one: string, many: string): string => `${n} ${n === 1 ? one : many}`;
const decimals = (n: number): string => count(n, 'Dezimalstelle', 'Dezimalstellen');
const list = (words: readonly string[]): string =>
  words.length < 2 ? words.join('') : `${words.slice(0, -1).join(', ')} und ${words.at(-1)}`;
