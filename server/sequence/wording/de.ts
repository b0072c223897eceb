/**
 * What the findings say, in German: what the machine does, and what to do about it.
 *
 * Words of the notation stay as they are written in a file. Advice is given in the infinitive, as it is in the books
 * that came with such machines.
 */
import { closingMark, INSET_FIGURES, INSET_KINDS } from '../../../grammar/insets.js';
import type { TextError } from '../../../grammar/tree.js';
import type { Register } from '../../machine/index.js';
import type { Effort } from '../effort.js';
import type {
  Device,
  Differs,
  Facts,
  FactsOf,
  FileProblem,
  GoalProblem,
  InsetFault,
  NameKind,
  ProfileProblem,
  Related,
  Severity,
} from '../findings.js';
import type { Look, Looked, Told } from '../looks.js';
import { withoutLeadingZeros } from '../readings.js';
import { cleanText, cutNumber, stepsText } from './shared.js';

/** The message of a finding, one or two sentences. */
export function messageOf(facts: Facts): string {
  switch (facts.code) {
    case 'syntax':
      return syntaxMessage(facts.problem);
    case 'unknown-name': {
      const { none } = NAMED[facts.kind];
      if (facts.nearest) return `Es gibt hier ${none} namens ${facts.name}. Ist ${facts.nearest} gemeint?`;
      if (facts.kind === 'parameter' && facts.name.includes('-')) {
        return `${facts.name} wird als ein einziger Name gelesen, und einen solchen Parameter gibt es nicht. Zum Subtrahieren Leerzeichen um das Minus setzen.`;
      }
      if (facts.kind === 'label') {
        return `Der Rechengang hat keine Ablesung namens ${facts.name}. Einem expect mit as ${facts.name} diesen Namen geben oder die Ablesung mit ihrer Nummer nennen.`;
      }
      const where =
        facts.kind === 'parameter'
          ? 'Hinter dem Titel des Rechengangs aufführen.'
          : 'In diese Datei schreiben oder mit use "…" einbinden.';
      return `Es gibt hier ${none} namens ${facts.name}. ${where}`;
    }
    case 'duplicate-name':
      return `So heißt schon ${NAMED[facts.kind].other}: ${facts.name}. ${NAMED[facts.kind].oneOfBoth} umbenennen.`;
    case 'no-machine':
      return facts.visible === 0
        ? 'Hier ist keine Maschine bekannt. Eine mit machine beschreiben oder mit use "…" einbinden.'
        : `Hier sind ${grouped(facts.visible)} Maschinen bekannt. Hinter dem Namen angeben, auf welcher gekurbelt wird: on NAME.`;
    case 'file-not-found':
      return fileMessage(facts.path, facts.why);
    case 'sequence-cycle':
      if (facts.by === 'use') {
        return `${shown(facts.name)} benutzt ihrerseits diese Datei. Was beide brauchen, in eine dritte Datei schreiben.`;
      }
      return facts.by === 'run'
        ? `${facts.name} läuft bereits: Der Rechengang würde sich selbst ohne Ende ausführen. Dieser Schritt wird ausgelassen.`
        : `${facts.name} geht ihrerseits mit like auf diese Maschine zurück: Keine von beiden lässt sich bauen. Bei einer der beiden die Zeilen ausschreiben.`;
    case 'bad-profile':
      return profileMessage(facts.problem);
    case 'wrong-arguments':
      return argumentsMessage(facts.why);
    case 'setting-too-long':
      return `${shortNumber(facts.figures)} passt nicht: Es gibt ${count(facts.places, 'Einstellhebel', 'Einstellhebel')}${facts.at > 1 ? `, und die Einer sollen auf Hebel ${facts.at} stehen` : ''}. Nichts wird eingestellt. Weniger Ziffern nehmen oder eine Maschine mit mehr Einstellhebeln.`;
    case 'dial-too-long':
      return `${shortNumber(facts.figures)} passt nicht: Das Resultatwerk hat ${places(facts.places)}${facts.at > 1 ? `, und die Einer sollen auf Stelle ${facts.at} stehen` : ''}. Nichts wird eingestellt. Weniger Ziffern nehmen.`;
    case 'places-overlap':
      return `Zwei dieser Zahlen beanspruchen Einstellhebel ${facts.place}. Nichts wird eingestellt. Eine davon mit at auf andere Hebel verschieben.`;
    case 'no-such-place':
      if (facts.isDecimals && facts.register !== 'carriage') {
        const most = facts.places === 1 ? '1 Dezimalstelle oder keine' : `0 bis ${facts.places} Dezimalstellen`;
        return `Das ${WORK[facts.register]} hat ${places(facts.places)}, kann also ${most} haben, nicht ${shortNumber(facts.place)}. Keine Kommamarke wird bewegt.`;
      }
      return `Eine Stelle ${shortNumber(facts.place)} gibt es nicht: ${facts.register === 'carriage' ? 'Der Schlitten' : `Das ${WORK[facts.register]}`} hat ${range('Stelle', facts.places)}. Nichts wird bewegt.`;
    case 'too-many-decimals':
      return `${shortNumber(facts.number)} hat mehr Dezimalstellen, als die Kommamarke des ${WORK[facts.register]}s lässt, nämlich ${facts.marker}. Nichts wird eingestellt. Zuerst die Kommamarke verschieben: points ${facts.register} ${facts.number.split('.')[1]?.length ?? 0}.`;
    case 'not-on-this-machine':
      return `${facts.machine} hat ${NO_DEVICE[facts.device]}. Der Schritt bewegt nichts: weglassen oder eine Maschine nehmen, die das kann.`;
    case 'one-way-crank':
      return `Die Kurbel von ${facts.machine} dreht nur in einer Richtung. Der Schritt bewegt nichts: ${facts.subtracts ? 'mit mode subtract und turn subtrahieren' : 'Diese Maschine addiert nur, also das Komplement addieren'}.`;
    case 'carriage-end':
      return facts.wanted === ''
        ? `Der Schlitten stößt an und ${standsIn(facts.at)}; er hat ${range('Stellung', facts.positions)}. Weniger weit rücken.`
        : `Eine Stellung ${shortNumber(facts.wanted)} gibt es nicht: Der Schlitten hat ${range('Stellung', facts.positions)}. Er ${staysIn(facts.at)}.`;
    case 'carriage-parked':
      if (facts.times === 0) {
        return 'Der Schlitten steht außer Eingriff: Es wird nicht gekurbelt. Zuerst in eine Stellung rücken.';
      }
      return `Der Schlitten steht außer Eingriff: ${facts.times === 1 ? 'Die Kurbelumdrehung bewegt' : `${grouped(facts.times)} Kurbelumdrehungen bewegen`} nichts, auch nicht das Umdrehungszählwerk. Zuerst in eine Stellung rücken oder unmittelbar davor expect parked schreiben.`;
    case 'result-overflow':
      return `${nth(facts.turn)} überträgt über Stelle ${facts.places} hinaus, die höchste des Resultatwerks: Es zeigt 10^${facts.places} zu wenig. Mit weniger Stellen rechnen oder das Resultatwerk vorher löschen; ist der Überlauf gewollt, gleich danach expect overflow schreiben.`;
    case 'result-overdraw':
      return `${nth(facts.turn)} unterschreitet im Resultatwerk die Null: Es zeigt das Komplement, links mit Neunen. Mit einer Umdrehung in der Gegenrichtung ausgleichen; ist es gewollt, gleich danach expect overdraw schreiben.`;
    case 'overflow-restored':
      return `${nth(facts.turn)} überträgt über Stelle ${facts.places} des Resultatwerks hinaus, und eine spätere Umdrehung nimmt das zurück.`;
    case 'overdraw-restored':
      return `${nth(facts.turn)} unterschreitet im Resultatwerk die Null, und eine spätere Umdrehung gleicht das aus.`;
    case 'digits-off-end':
      return `In Stellung ${facts.position} stehen die höchsten Einstellhebel über keinem Ziffernrad des Resultatwerks, das ${places(facts.places)} hat: Ihre Ziffern gehen verloren. Den Schlitten nach links rücken oder weniger Ziffern einstellen.`;
    case 'carry-short':
      return `${nth(facts.turn)} überträgt über Stelle ${facts.place} hinaus, wo die Zehnerübertragung dieser Maschine endet, solange der Schlitten hier steht: Das Resultat ist ${facts.times > 1 ? `bei jeder von ${grouped(facts.times)} Umdrehungen ` : ''}um 10^${facts.place} falsch. Den Schlitten nach rechts rücken oder mit weniger Stellen rechnen.`;
    case 'counter-overflow':
      return facts.wheel !== undefined
        ? `${nth(facts.turn)} führt Ziffernrad ${facts.wheel} des Umdrehungszählwerks über 9 hinaus, und dieses hat keine Zehnerübertragung: Das Rad beginnt wieder bei 0. Den Schlitten rücken, statt so oft zu drehen.`
        : `${nth(facts.turn)} führt das Umdrehungszählwerk über seine höchste Stelle hinaus, Stelle ${facts.places}: Es beginnt wieder bei 0. Das Umdrehungszählwerk vorher löschen.`;
    case 'counter-underflow':
      return facts.wheel !== undefined
        ? `${nth(facts.turn)} führt Ziffernrad ${facts.wheel} des Umdrehungszählwerks unter 0: Es zeigt 9. Als Komplement lesen oder das Umdrehungszählwerk löschen und in der anderen Richtung zählen.`
        : `${nth(facts.turn)} führt das Umdrehungszählwerk unter null: Es zeigt das Komplement, links mit Neunen. Als Komplement lesen.`;
    case 'turn-not-counted':
      return `In Stellung ${facts.position} hat das Umdrehungszählwerk mit ${facts.places === 1 ? 'seiner einen Stelle' : `seinen ${facts.places} Stellen`} kein Ziffernrad: ${facts.times === 1 ? 'Die Umdrehung wird' : `${grouped(facts.times)} Umdrehungen werden`} nicht gezählt. Den Schlitten nach links rücken oder die Umdrehungen selbst aufschreiben.`;
    case 'divide-in-add-mode':
      return 'Die automatische Division macht hier eine addierende Umdrehung, obwohl keine Unterschreitung der Null auszugleichen ist, und rückt den Schlitten weiter. Vor dem Einschalten den Antrieb auf Subtraktion stellen.';
    case 'auto-clear-repeat':
      return `Mit auto-clear gehen die Einstellhebel nach der ersten dieser ${grouped(facts.times)} Umdrehungen auf null: ${facts.times === 2 ? 'Die zweite addiert' : 'Die übrigen addieren'} nichts. Ausschalten, bevor mehr als einmal gedreht wird.`;
    case 'never-overdraws':
      if (facts.why === 'stays-below') {
        return `Nach ${grouped(1_000)} addierenden Umdrehungen ist das Resultatwerk immer noch unter null. ${RUN_ENDS} Gehen die Einstellhebel von selbst auf null zurück?`;
      }
      return facts.why === 'adds'
        ? 'Diese Umdrehungen addieren: Das Resultatwerk kommt nie unter null. Es wird nicht gekurbelt. Den Antrieb auf Subtraktion stellen oder mit turn back rückwärts drehen.'
        : `Nach ${grouped(1_000)} Umdrehungen ist das Resultatwerk noch nicht unter null. ${RUN_ENDS} Stehen alle Einstellhebel auf null, oder steht der Divisor zu weit rechts?`;
    case 'never-stops':
      return facts.why === 'off'
        ? 'Die automatische Division ist ausgeschaltet: Nichts hält die Kurbel an. Es wird nicht gekurbelt. Vorher mit auto-divide on einschalten.'
        : `Nach ${grouped(1_000)} Umdrehungen hat die automatische Division noch nicht angehalten. ${RUN_ENDS} Stehen alle Einstellhebel auf null?`;
    case 'too-long':
      return tooLongMessage(facts.what, facts.limit);
    case 'transfer-position':
      return facts.position === 0
        ? 'Der Schlitten steht außer Eingriff: Die Rückübertragung bleibt aus. Vorher in Stellung 1 rücken.'
        : `Der Schlitten steht in Stellung ${facts.position}, und diese Maschine hat die Rückübertragung nur in Stellung 1: Sie bleibt aus. Vorher in Stellung 1 rücken.`;
    case 'transfer-onto-setting':
      return `Die Einstellhebel stehen auf ${withoutLeadingZeros(facts.setting)}: Darauf gibt es keine Rückübertragung. Das Einstellwerk vorher löschen: clear setting.`;
    case 'transfer-loses-digits':
      return `Nicht alle Ziffern des ${WORK[facts.register]}s, ${withoutLeadingZeros(facts.reading)}, haben einen Einstellhebel unter sich: Die übrigen gehen verloren. Den Schlitten rücken oder die Zahl vorher kürzen.`;
    case 'quotient-as-complement':
      return 'Subtrahierende Umdrehungen zählen in diesem Umdrehungszählwerk rückwärts: Es zeigt den Quotienten als Komplement. Das Komplement davon lesen oder eine Maschine nehmen, deren Umdrehungszählwerk sich auf Minus stellen lässt.';
    case 'points-disagree':
      return `Das Resultatwerk hat ${count(facts.result, 'Dezimalstelle', 'Dezimalstellen')}, Einstellwerk und Umdrehungszählwerk aber haben ${facts.setting} und ${facts.counter}: Ein Produkt hat so viele wie beide zusammen, nämlich ${facts.setting + facts.counter}.`;
    case 'reading-differs':
      return differsMessage(facts.differs);
    case 'goal-missed':
      if (facts.why.is === 'differs') {
        return `Das ${WORK[facts.register]} sollte am Ende ${shortNumber(facts.why.goal)} zeigen und zeigt ${facts.why.reading}.`;
      }
      return GOAL_PROBLEM[facts.why.is];
    case 'no-such-reading':
      return facts.readings === 0
        ? 'Der Rechengang hat keine Ablesung: Nichts wird darin erwartet. Mit expect angeben, was zu vergleichen ist.'
        : `Eine Ablesung ${shortNumber(facts.number)} gibt es nicht: Der Rechengang hat ${facts.readings === 1 ? '1 Ablesung' : `${grouped(facts.readings)} Ablesungen`}, gezählt, wie die Schritte expect ausgeführt werden. Eine davon mit Nummer oder Namen nennen.`;
    case 'found-impossible':
      return facts.what === 'carriage'
        ? `Eine Stellung ${shortNumber(facts.number)} gibt es nicht: Der Schlitten hat ${facts.places === 1 ? 'nur Stellung 1' : `Stellungen 1 bis ${facts.places}`}. Die Ablesung bleibt außer Betracht.`
        : `Das ${WORK[facts.what]} kann ${shortNumber(facts.number)} nicht zeigen: Es hat ${facts.places === 1 ? 'eine Stelle' : `${facts.places} Stellen`}. Die Ablesung bleibt außer Betracht. Die Ziffern so schreiben, wie sie zu sehen sind.`;
    case 'found-twice':
      return `${READ[facts.what]}: Was bei dieser Ablesung zu sehen war, steht schon weiter oben; das hier bleibt außer Betracht. Eines von beiden streichen.`;
    case 'found-differs':
      return `Die fehlerfreie Maschine zeigt hier „${lookText({ what: facts.what, shown: facts.sound })}“, gefunden wurde „${lookText({ what: facts.what, shown: facts.found })}“. cranknote diagnose nennt die Fehler, die das zeigen würden.`;
    case 'idle-turn':
      return facts.times === 1
        ? 'Alle Einstellhebel stehen auf null: Die Umdrehung addiert nichts. Vorher eine Zahl einstellen oder die Umdrehung weglassen.'
        : `Alle Einstellhebel stehen auf null: ${grouped(facts.times)} Umdrehungen addieren nichts. Vorher eine Zahl einstellen oder die Umdrehungen weglassen.`;
    case 'many-turns':
      return `${grouped(facts.times)} Umdrehungen in einer Stellung: Je zehn davon ersetzt eine einzige in der nächsten Stellung rechts.`;
    case 'assumes-clear': {
      const works = list(facts.registers.map((register) => `das ${WORK[register]}`));
      return facts.registers.length === 1
        ? `Hier wird ${works} so benutzt, wie es gerade steht. Am Anfang löschen.`
        : `Hier werden ${works} so benutzt, wie sie gerade stehen. Am Anfang löschen.`;
    }
    case 'left-engaged':
      return `Am Ende ${list(facts.what.map((what) => ENGAGED[what]))}. Wer als Nächstes kurbelt, rechnet nicht damit: zurückstellen.`;
    case 'unused':
      return `${facts.kind === 'machine' ? 'Die Maschine' : 'Der Parameter'} ${facts.name} wird nirgends benutzt.`;
    case 'shorter-sequence':
      return shorterMessage(facts);
    case 'stale-inset': {
      const what = facts.name === undefined ? facts.kind : `${facts.kind} von ${facts.name}`;
      const by = facts.hasPictures ? 'Mit cranknote weave' : 'Mit der Glühlampe oder mit cranknote weave';
      return facts.isEmpty
        ? `Hier soll stehen: ${what}. ${by} einfügen.`
        : `Was hier steht (${what}), zeigt die Maschine nicht mehr. ${by} auffrischen.`;
    }
    case 'bad-inset':
      return insetMessage(facts.why);
  }
}

function insetMessage(why: InsetFault): string {
  const meant = (text: string, near: string | undefined) =>
    near === undefined ? text : `${text} Ist ${near} gemeint?`;
  switch (why.is) {
    case 'no-kind':
      return `Hinter crank: sagen, was hier stehen soll. Bekannt sind ${list(INSET_KINDS)}.`;
    case 'unknown-kind':
      return meant(
        `${shown(why.word)} lässt sich hier nicht einsetzen. Bekannt sind ${list(INSET_KINDS)}.`,
        why.nearest,
      );
    case 'unknown-word':
      return meant(`${shown(why.word)} wird in diesem Kommentar nicht verstanden.`, why.nearest);
    case 'bad-figures':
      return meant(`Bei figures gibt es ${list(INSET_FIGURES)}, nicht ${shown(why.word)}.`, why.nearest);
    case 'no-value':
      return `Hinter ${why.word} fehlt etwas.`;
    case 'twice':
      return `${why.word} steht zweimal in diesem Kommentar.`;
    case 'bad-case':
      return `Ein Fall ist eine ganze Zahl, und 0 steht für die Vorgaben: nicht ${shown(why.word)}.`;
    case 'not-alone':
      return 'Der Kommentar muss auf einer eigenen Zeile beginnen und enden.';
    case 'in-html':
      return 'Dieser Kommentar steht in einem Stück HTML, in dem kein Markdown gelesen wird. Eine Leerzeile darüber setzen.';
    case 'text-below':
      return `Der schließende Kommentar fehlt, und gleich darunter steht Text. Eine Leerzeile oder ${END_COMMENT} dorthin setzen, wo der Text beginnen soll.`;
    case 'stray-end':
      return 'Hier wird nichts geschlossen: Darüber steht, in derselben Liste oder demselben Zitat, kein öffnender Kommentar.';
    case 'nested':
      return 'In einem Einschub kann kein anderer stehen. Vielleicht fehlt darüber ein schließender Kommentar, oder darunter ist einer zu viel.';
    case 'too-many':
      return `Eine Seite kann ${why.limit} Einschübe haben. Dieser und alle darunter bleiben, wie sie sind.`;
    case 'no-sequence':
      return 'Darüber beginnt kein Rechengang. Hinter of einen nennen.';
    case 'unknown-sequence':
      return meant(`Auf dieser Seite gibt es keinen Rechengang ${shown(why.name)}.`, why.nearest);
    case 'no-case':
      return why.cases === 0
        ? `${why.name} hat keinen Fall ${why.number}: Es gibt nur die Vorgaben, Fall 0.`
        : `${why.name} hat keinen Fall ${why.number}: Die Fälle gehen von 0 (den Vorgaben) bis ${why.cases}.`;
    case 'unknown-language':
      return `Für ${shown(why.language)} gibt es keine Wörter. Bekannt sind ${list(why.known)}.`;
    case 'has-errors':
      return `${why.name} hat einen Fehler, und die Ablesungen wären falsch. Erst beheben; bis dahin bleibt dies, wie es ist.`;
    case 'not-run':
      return `${why.name} lässt sich nicht zu Ende ausführen, so dass es hier nichts einzusetzen gibt. Dies bleibt, wie es ist.`;
    case 'too-long':
      return `${why.name} hat mehr Schritte, als eine Seite bekommt. Dies bleibt, wie es ist.`;
    case 'by-hand':
      return 'In diesen Einschub hat jemand geschrieben, und davon wird ungefragt nichts weggeworfen. Was bleiben soll, herausnehmen und den Einschub leeren; dann wird er wieder gefüllt.';
    case 'lost-end':
      return `Dies scheint schon gefüllt zu sein und seinen schließenden Kommentar verloren zu haben. ${END_COMMENT} unter das Eingesetzte schreiben, oder dieses löschen.`;
  }
}

const END_COMMENT = closingMark();

function shorterMessage({ count: written, effort, steps, shorter }: FactsOf<'shorter-sequence'>): string {
  const these = written === 1 ? 'Dieser Schritt hat' : `Diese ${grouped(written)} Schritte haben`;
  const cost = `einen Aufwand von ${grouped(effort.cost)} (${workText(effort)})`;
  if (steps.length === 0) return `${these} ${cost} und enden, wo sie begonnen haben: weglassen.`;
  return `${these} ${cost}. Dasselbe geht mit ${grouped(shorter.cost)} (${workText(shorter)}): ${stepsText(steps)}.`;
}

const workText = ({ turns, shifts, levers }: Effort): string =>
  [
    turns > 0 ? count(turns, 'Umdrehung', 'Umdrehungen') : '',
    shifts > 0 ? count(shifts, 'Schlittenschritt', 'Schlittenschritte') : '',
    levers > 0 ? `${count(levers, 'Hebel', 'Hebel')} gestellt` : '',
  ]
    .filter(Boolean)
    .join(', ');

/** A whole number in a sentence, its thousands set apart by a narrow blank that does not break. */
const grouped = (n: number): string => String(n).replace(/\B(?=(?:\d{3})+$)/g, '\u202f');
const count = (n: number, one: string, many: string): string => `${grouped(n)} ${n === 1 ? one : many}`;
const places = (n: number): string => count(n, 'Stelle', 'Stellen');
const range = (thing: 'Stelle' | 'Stellung', highest: number): string =>
  highest === 1 ? `nur die ${thing} 1` : `die ${thing}${thing === 'Stelle' ? 'n' : 'en'} 1 bis ${highest}`;
const nth = (turn: number): string => (turn === 0 ? 'Eine Umdrehung' : `Die ${turn}. Umdrehung`);
const standsIn = (position: number): string =>
  position === 0 ? 'steht außer Eingriff' : `steht in Stellung ${position}`;
const staysIn = (position: number): string =>
  position === 0 ? 'bleibt außer Eingriff' : `bleibt in Stellung ${position}`;
const list = (words: readonly string[]): string =>
  words.length < 2 ? words.join('') : `${words.slice(0, -1).join(', ')} und ${words.at(-1)}`;

/** A number that a line has room for: no register shows more than twenty figures. */
export const shortNumber = (number: string): string => cutNumber(number, 'Ziffern');

/** What a found word looks like in a message, however odd it is. */
const shown = (text: string): string => `„${cleanText(text)}“`;

/** The registers, all neuter; with an s in the genitive. */
const WORK: Readonly<Record<Register, string>> = {
  setting: 'Einstellwerk',
  counter: 'Umdrehungszählwerk',
  result: 'Resultatwerk',
};

/** What has a name, in the forms that the sentences need. */
const NAMED: Readonly<Record<NameKind, { readonly none: string; readonly other: string; readonly oneOfBoth: string }>> =
  {
    machine: { none: 'keine Maschine', other: 'eine andere Maschine', oneOfBoth: 'Eine der beiden' },
    sequence: { none: 'keinen Rechengang', other: 'ein anderer Rechengang', oneOfBoth: 'Einen der beiden' },
    parameter: { none: 'keinen Parameter', other: 'ein anderer Parameter', oneOfBoth: 'Einen der beiden' },
    label: { none: 'keine Ablesung', other: 'eine andere Ablesung', oneOfBoth: 'Eine der beiden' },
  };

const RUN_ENDS = 'Hier wird abgebrochen: Was folgt, hat keine Ablesungen.';

function syntaxMessage(problem: TextError['problem']): string {
  switch (problem.is) {
    case 'not-a-step':
      return `${shown(problem.found)} ist kein Schritt.${problem.nearest ? ` Ist ${problem.nearest} gemeint?` : ''}`;
    case 'not-a-line':
      return `${shown(problem.found)} ist keine Zeile einer Maschine.${problem.nearest ? ` Ist ${problem.nearest} gemeint?` : ''}`;
    case 'not-a-section':
      return problem.nearest
        ? `${shown(problem.found)} eröffnet keinen Abschnitt. Ist ${problem.nearest} gemeint?`
        : `${problem.found} eröffnet einen Abschnitt: an den Anfang einer Zeile schreiben.`;
    case 'no-section':
      return `${shown(problem.found)} steht in keinem Abschnitt. Mit use, machine oder sequence beginnen.`;
    case 'wrong-section':
      return {
        machine: `${shown(problem.found)} ist eine Zeile einer Maschine und gehört nicht hierher.`,
        sequence: `${shown(problem.found)} ist ein Schritt und gehört in einen Rechengang.`,
        bench: 'found gehört in ein Protokoll, das mit bench beginnt.',
      }[problem.belongs];
    case 'form': {
      const found =
        problem.found === '' ? `${problem.word} ist nicht vollständig.` : `${shown(problem.found)} passt hier nicht.`;
      return `${found} So wird es geschrieben: ${problem.forms.join('  oder  ')}`;
    }
    case 'keyword-as-name':
      return `${problem.found} ist ein Wort der Notation und kann kein Name sein. Einen anderen wählen, zum Beispiel ${problem.found}-1.`;
    case 'unclosed-text':
      return 'Dieser Text hat kein Ende. Ein Anführungszeichen dahinter setzen; im Text selbst steht \\" für ein Anführungszeichen und \\\\ für \\.';
    case 'text-escape':
      return 'In einem Text steht \\ nur vor einem Anführungszeichen oder einem weiteren \\. Für ein einzelnes \\\\ schreiben, in einem Pfad /.';
    case 'unclosed-brace':
      return 'Dieses repeat ist nicht geschlossen. Hinter seinen letzten Schritt ein } setzen.';
    case 'stray-brace':
      return 'Es gibt kein repeat, das dieses } schließen könnte.';
    case 'line-too-long':
      return `Diese Zeile ist länger als ${grouped(4_000)} Zeichen und wird nicht gelesen. Auf mehrere Zeilen verteilen.`;
    case 'too-deep':
      return 'Das ist zu tief verschachtelt, um gelesen zu werden. Den inneren Teil als eigenen Rechengang schreiben.';
    case 'number-point':
      return 'In einer Zahl steht der Punkt zwischen Ziffern: 0.5, nicht .5; 24, nicht 24.';
  }
}

function fileMessage(path: string, why: FileProblem): string {
  const named = shown(path);
  switch (why) {
    case 'missing':
      return `Es gibt keine Datei ${named}. Pfade beginnen im Ordner dieser Datei.`;
    case 'outside':
      return `${named} liegt außerhalb des Ordners, der geprüft wird, und wird nicht gelesen. In diesen Ordner legen.`;
    case 'not-relative':
      return `${named} ist kein Pfad vom Ordner dieser Datei aus. Mit / und ohne Laufwerk oder Adresse schreiben.`;
    case 'folder':
      return `${named} ist ein Ordner. Eine Datei darin nennen.`;
    case 'unreadable':
      return `${named} lässt sich nicht lesen. Fehlt dazu die Berechtigung?`;
    case 'too-large':
      return `${named} ist größer als 16 MB und wird nicht gelesen. Auf mehrere Dateien verteilen.`;
    case 'not-text':
      return `${named} ist kein Text in UTF-8 und wird nicht gelesen. Als UTF-8 speichern.`;
  }
}

function profileMessage(problem: ProfileProblem): string {
  switch (problem.is) {
    case 'out-of-range':
      return problem.lowest === problem.highest
        ? `${problem.line}: Hier kann nur ${grouped(problem.lowest)} stehen.`
        : `${problem.line}: Hier wird eine ganze Zahl von ${grouped(problem.lowest)} bis ${grouped(problem.highest)} gebraucht.`;
    case 'missing':
      return `Der Maschine fehlt die Zeile ${problem.line}: Sie braucht setting und result.`;
    case 'reach-below-setting':
      return 'Die Zehnerübertragung reicht weniger weit als die Einstellhebel: bei reach mindestens so viele Stellen angeben wie bei setting.';
    case 'result-below-setting':
      return 'Das Resultatwerk hat weniger Stellen, als es Einstellhebel gibt: ihm mindestens ebenso viele geben.';
    case 'carriage-past-result':
      return 'Der Schlitten hat mehr Stellungen als das Resultatwerk Stellen.';
    case 'divide-needs-lever':
      return 'Die automatische Division braucht einen Umschalthebel: subtract lever, half-step oder lift.';
    case 'twice':
      return `${problem.line} ist zweimal geschrieben. Eine der Zeilen behalten.`;
    case 'no-such-line':
      return `Eine Maschine hat keine Zeile ${shown(problem.line)}, die wegfallen könnte.`;
  }
}

function argumentsMessage(why: Extract<Facts, { code: 'wrong-arguments' }>['why']): string {
  switch (why.is) {
    case 'too-many':
      return `${why.name} nimmt ${why.takes === 0 ? 'keine Zahl' : count(why.takes, 'Zahl', 'Zahlen')}, und ${why.given === 1 ? 'eine ist' : `${grouped(why.given)} sind`} gegeben. Der Schritt wird ausgelassen.`;
    case 'not-whole':
      return `${shortNumber(why.number)} hat einen Punkt, und hier wird eine ganze Zahl gebraucht. Der Schritt wird ausgelassen.`;
    case 'value-with-at':
      return `${shortNumber(why.number)} hat einen Punkt: Die Zahl richtet sich nach der Kommamarke und nimmt kein at. Nichts wird bewegt.`;
    case 'out-of-range':
      return `${shortNumber(why.number)} ist keine Zahl von ${grouped(why.lowest)} bis ${grouped(why.highest)}. Der Schritt wird ausgelassen.`;
    case 'divide-to':
      return `Der Schlitten steht in Stellung ${why.position}, also schon links von Stellung ${why.to}. Der Schritt wird ausgelassen.`;
  }
}

const NO_DEVICE: Readonly<Record<Device, string>> = {
  mode: 'keinen Umschalthebel für Addition und Subtraktion',
  count: 'keinen Umschalthebel am Umdrehungszählwerk',
  'auto-clear': 'keine Taste, die die Einstellhebel löscht',
  'auto-divide': 'keine automatische Division',
  dial: 'im Resultatwerk keine Ziffernräder, die sich von Hand einstellen lassen',
  'transfer result': 'keine Rückübertragung aus dem Resultatwerk',
  'transfer counter': 'keine Rückübertragung aus dem Umdrehungszählwerk',
  'shift out': 'keinen Platz, an dem der Schlitten außer Eingriff steht',
  'half steps': 'keine halben Stellungen des Schlittens',
  counter: 'kein Umdrehungszählwerk',
  bell: 'keine Glocke',
  subtract: 'keine Subtraktion',
};

function tooLongMessage(what: Extract<Facts, { code: 'too-long' }>['what'], limit: number): string {
  const most = grouped(limit);
  switch (what) {
    case 'steps':
      return `Der Rechengang hat inzwischen mehr als ${most} Schritte. ${RUN_ENDS}`;
    case 'turns':
      return `Der Rechengang hat inzwischen mehr als ${most} Kurbelumdrehungen gemacht. ${RUN_ENDS}`;
    case 'nesting':
      return `repeat und run liegen mehr als ${most}-fach ineinander. ${RUN_ENDS}`;
    case 'findings':
      return limit === 1
        ? 'Es gibt noch 1 weiteren Befund in dieser Datei. Zuerst die oberen beheben.'
        : `Es gibt noch ${most} weitere Befunde in dieser Datei. Zuerst die oberen beheben.`;
    case 'file-steps':
      return `Die Rechengänge dieser Datei haben zusammen mehr als ${most} Schritte: Von hier an werden sie nicht ausgeführt. Einige in eine andere Datei verlegen.`;
    case 'file-turns':
      return `Die Rechengänge dieser Datei machen zusammen mehr als ${most} Kurbelumdrehungen: Von hier an werden sie nicht ausgeführt. Einige in eine andere Datei verlegen.`;
  }
}

function differsMessage(differs: Differs): string {
  switch (differs.is) {
    case 'register': {
      const wheel =
        differs.place === undefined ? '' : ` Das erste Ziffernrad, das abweicht, steht in Stelle ${differs.place}.`;
      return `Das ${WORK[differs.register]} zeigt ${differs.reading}, nicht ${shortNumber(differs.expected)}.${wheel}`;
    }
    case 'carriage':
      return `Der Schlitten ${standsIn(differs.reading)}, nicht in Stellung ${shortNumber(differs.expected)}.`;
    case 'bell':
      return 'Die Glocke läutet im Schritt davor nicht.';
    case 'overflow':
      return 'Das Resultatwerk läuft im Schritt davor nicht über.';
    case 'overdraw':
      return 'Das Resultatwerk kommt im Schritt davor nicht unter null.';
    case 'parked':
      return 'Der Schlitten steht nicht außer Eingriff.';
  }
}

const GOAL_PROBLEM: Readonly<Record<GoalProblem, string>> = {
  'divides-by-zero': 'Dieses Ziel hat keinen Wert: Es teilt durch null.',
  'root-of-negative': 'Dieses Ziel hat keinen Wert: Aus einer negativen Zahl gibt es keine Quadratwurzel.',
  'power-not-whole':
    'Dieses Ziel hat keinen Wert: Ein Exponent muss eine ganze Zahl sein; für eine Wurzel sqrt( ) schreiben.',
  'too-large': `Dieses Ziel hat mehr Ziffern, als hier zu berechnen sind (${grouped(2_000)}).`,
  'unknown-name': 'Dieses Ziel hat keinen Wert: Es nennt einen Parameter, den es nicht gibt.',
};

/** Behind “Am Ende”. */
const ENGAGED = {
  subtract: 'steht der Antrieb auf Subtraktion',
  minus: 'steht das Umdrehungszählwerk auf Minus',
  'auto-clear': 'ist auto-clear eingeschaltet',
  'auto-divide': 'ist auto-divide eingeschaltet',
} as const;

/** Behind the message of what was noticed in several rounds of a step. */
export const roundsText = (rounds: number): string =>
  `So ist es in ${grouped(rounds)} Durchgängen; dies ist der erste.`;

/** Why another place is named beside a finding. */
export const relatedText: Readonly<Record<Related['why'], string>> = {
  'switched-on': 'Hier wurde eingeschaltet.',
  'out-of-gear': 'Hier kam der Schlitten außer Eingriff.',
  'in-the-sequence': 'Es geschieht bei diesem Schritt des anderen Rechengangs.',
};

/** A severity in a line of the terminal. */
export const severityText: Readonly<Record<Severity, string>> = {
  error: 'Fehler',
  warning: 'Warnung',
  information: 'Information',
  hint: 'Hinweis',
};

/** One reading: `Resultatwerk 9999990000`, `keine Glocke`. */
export function lookText({
  what,
  shown: seen,
}: {
  readonly what: Looked;
  readonly shown: Look['shown'] | Told;
}): string {
  if (seen === true) return READ[what];
  if (seen === false) return NOT_READ[what] ?? '';
  return what === 'carriage' && seen === 0 ? 'Schlitten außer Eingriff' : `${READ[what]} ${seen}`;
}

const READ: Readonly<Record<Looked, string>> = {
  ...WORK,
  ...{ carriage: 'Schlitten', bell: 'Glocke', overflow: 'Überlauf', overdraw: 'unter null', parked: 'außer Eingriff' },
};

const NOT_READ: Readonly<Partial<Record<Looked, string>>> = {
  ...{ bell: 'keine Glocke', overflow: 'kein Überlauf', overdraw: 'nicht unter null', parked: 'nicht außer Eingriff' },
};
