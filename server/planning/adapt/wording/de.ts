/**
 * What is said of sequences that were carried over, in German: what the new machine lacks and what would do.
 *
 * Words of the notation stay as they are written in a file. Advice is given in the infinitive.
 */
import type { Device } from '../../../sequence/findings.js';
import type { AdaptWording, Limit, Reading, Varying } from '../facts.js';

export const german: AdaptWording = {
  differenceText: ({ register, before, after, reason }) => {
    const left = after === undefined;
    switch (reason) {
      case 'complement':
        return `${WORKS[register]} zeigt ${after} statt ${before}: Ein Komplement hat Neunen bis zur höchsten Stelle des Werks.`;
      case 'fewer-places':
        return `${WORKS[register]} zeigt ${after} statt ${before}: Die Kommamarken stehen weiter rechts.`;
      case 'counts-otherwise':
        return `Das Umdrehungszählwerk zeigt ${after} statt ${before}: Es zählt diese Umdrehungen anders.`;
      case 'no-bell':
        return left
          ? 'Die Maschine hat keine Glocke: Auf sie wird nicht geachtet.'
          : `Die Maschine hat keine Glocke: Stattdessen wird ${after} erwartet.`;
      case 'no-counter':
        return `Die Maschine hat kein Umdrehungszählwerk: Die Ablesung ${before} entfällt.`;
      case 'no-park':
        return 'Der Schlitten dieser Maschine steht hier nicht außer Eingriff: Das wird nicht erwartet.';
      case 'no-complement':
        return `Die Zahl wird subtrahiert, statt ihr Komplement zu addieren: ${before} wird nicht erwartet.`;
      case 'by-complement':
        return `Das Komplement wird addiert, statt zu subtrahieren: ${before} wird nicht erwartet.`;
      case 'built-up':
        return left
          ? `Das Resultatwerk wird aufgebaut, statt zu subtrahieren: ${before} wird nicht erwartet.`
          : `Das Resultatwerk zeigt ${after} statt ${before}: Es baut auf, was vorher abgezogen wurde.`;
      case 'positions':
        return `Der Schlitten steht in Stellung ${after} statt ${before}.`;
    }
  },
  reread:
    'Was dort steht, bleibt, wie es geschrieben wurde, und Schritte daneben sind andere geworden: Nachlesen, ob es noch stimmt.',
  obstacleText: (obstacle) => {
    switch (obstacle.kind) {
      case 'limit':
        return `${hasText(obstacle.limit, obstacle.has)}, und hier werden ${obstacle.needs} gebraucht. ${LIMIT_ADVICE[obstacle.limit]}`;
      case 'complement-levers':
        return `Die Maschine addiert nur. Um mit dem Komplement zu subtrahieren, müssten ${obstacle.needs} Einstellhebel bis zur höchsten Stelle des Resultatwerks reichen, und es gibt ${obstacle.has}. Eine Maschine nehmen, die subtrahiert.`;
      case 'device':
        return DEVICES[obstacle.device];
      case 'counting':
        return 'Das Umdrehungszählwerk der Maschine zählt diese Umdrehungen in der Gegenrichtung, und es wird abgelesen. Eine Maschine mit Umschalthebel am Umdrehungszählwerk nehmen oder auf die Ablesung verzichten.';
      case 'no-carry':
        return 'Das Umdrehungszählwerk der Maschine hat keine Zehnerübertragung, und es wird abgelesen. In einer Stellung höchstens neunmal drehen und nicht unter null zurückdrehen.';
      case 'counter-below-zero':
        return 'Das Umdrehungszählwerk käme unterwegs unter null. Mit den addierenden Umdrehungen beginnen.';
      case 'varies':
        return VARYING[obstacle.what];
      case 'run':
        return `${obstacle.name} läuft hier mit, und seine eigenen Schritte müssten sich ändern. Diesen Rechengang zuerst unter anderem Namen übertragen und dann den aufrufen.`;
      case 'source':
        return `Der Rechengang hat hier schon jetzt einen Fehler (${obstacle.code}). Zuerst beheben.`;
      case 'too-long':
        return `Der Rechengang ist zu lang, um ausprobiert zu werden: Er hat mehr als ${obstacle.limit.toLocaleString('de-DE')} Zeilen oder mit allen Fällen Schritte und Umdrehungen. Aufteilen.`;
      case 'bad-machine':
        return 'Die Maschine widerspricht sich. Zuerst ihre Zeilen berichtigen.';
      case 'no-event':
        return `${EVENTS[obstacle.event]} hier nicht${
          obstacle.has === obstacle.was
            ? ''
            : `, denn das Resultatwerk dieser Maschine hat ${count(obstacle.has, 'Stelle', 'Stellen')} und nicht ${obstacle.was}`
        }. Zahlen nehmen, die an seine höchste Stelle reichen, oder nicht darauf achten.`;
      case 'not-equal':
        if (obstacle.register) {
          return `${WORKS[obstacle.register]} würde nach diesem Schritt etwas anderes zeigen als auf der alten Maschine.${
            obstacle.register === 'counter'
              ? ' Wird es nicht gebraucht: dem Rechengang ein Ziel für das Resultatwerk geben und am Umdrehungszählwerk nichts erwarten.'
              : ''
          }`;
        }
        return obstacle.code === undefined
          ? 'Die Schritte lassen sich machen, aber die Ablesungen kämen nicht so heraus wie auf der alten Maschine.'
          : `Der Schritt lässt sich machen, bewirkt aber nicht dasselbe: Er ergäbe ${obstacle.code}.`;
    }
  },
  notes: {
    readReading: (register) =>
      `Das ${register === 'result' ? 'Resultatwerk' : 'Umdrehungszählwerk'} ablesen und die Zahl einstellen.`,
    buildUp: (dividend) => `Von null aus auf ${dividend} zu aufbauen, statt davon abzuziehen.`,
    rest: (rest) => `Was vom Dividenden bleibt, ${rest}, kommt ins Resultatwerk.`,
    sense: 'Je eine Umdrehung hin und zurück, damit das Umdrehungszählwerk seine Zählrichtung annimmt.',
  },
};

const WORKS: Readonly<Record<Reading, string>> = {
  setting: 'Das Einstellwerk',
  counter: 'Das Umdrehungszählwerk',
  result: 'Das Resultatwerk',
  bell: 'Die Glocke',
  overflow: 'Das Resultatwerk',
  overdraw: 'Das Resultatwerk',
  parked: 'Der Schlitten',
  carriage: 'Der Schlitten',
};

const EVENTS = {
  bell: 'Die Glocke läutet',
  overflow: 'Das Resultatwerk läuft über die höchste Stelle hinaus',
  overdraw: 'Das Resultatwerk fällt unter null',
};

const count = (n: number, one: string, more: string): string => `${n} ${n === 1 ? one : more}`;

function hasText(limit: Limit, has: number): string {
  switch (limit) {
    case 'setting':
      return `Die Maschine hat ${count(has, 'Einstellhebel', 'Einstellhebel')}`;
    case 'counter':
      return `Das Umdrehungszählwerk der Maschine hat ${count(has, 'Stelle', 'Stellen')}`;
    case 'result':
      return `Das Resultatwerk der Maschine hat ${count(has, 'Stelle', 'Stellen')}`;
    case 'carriage':
      return `Der Schlitten der Maschine hat ${count(has, 'Stellung', 'Stellungen')}`;
    case 'reach':
      return `Die Zehnerübertragung der Maschine reicht vom Schlitten aus über ${count(has, 'Stelle', 'Stellen')}`;
  }
}

const NARROW = 'Zahlen mit weniger Ziffern nehmen oder eine Maschine mit mehr Stellen.';
const LIMIT_ADVICE: Readonly<Record<Limit, string>> = {
  setting: NARROW,
  counter: NARROW,
  result: NARROW,
  carriage: 'Die Rechnung aufteilen oder eine Maschine nehmen, deren Schlitten weiter geht.',
  reach:
    'Weiter links rechnen, mit weniger Stellen darüber, oder eine Maschine mit durchgehender Zehnerübertragung nehmen.',
};

const DEVICES: Readonly<Record<Device, string>> = {
  mode: 'Die Maschine hat keinen Umschalthebel für Addition und Subtraktion.',
  count: 'Die Maschine hat keinen Umschalthebel am Umdrehungszählwerk.',
  'auto-clear': 'Die Maschine hat keine Taste, die die Einstellhebel löscht.',
  'auto-divide':
    'Die Maschine hat keine automatische Division, und diese Umdrehungen lassen sich nicht von Hand machen. Stattdessen divide schreiben.',
  dial: 'Das Resultatwerk der Maschine hat keine Ziffernräder, die sich von Hand einstellen lassen, und so, wie der Schlitten steht, bringt keine Umdrehung die Ziffern hinein. Vorher den Schlitten in Eingriff rücken.',
  'transfer result': 'Die Maschine hat keine Rückübertragung aus dem Resultatwerk.',
  'transfer counter':
    'Die Maschine hat keine Rückübertragung aus dem Umdrehungszählwerk und auch keines, das stattdessen abzulesen wäre.',
  'shift out': 'Der Schlitten der Maschine hat keinen Platz außer Eingriff.',
  'half steps': 'Der Schlitten der Maschine hat keine halben Stellungen.',
  counter:
    'Die Maschine hat kein Umdrehungszählwerk, und es wird abgelesen. Eine Maschine mit Umdrehungszählwerk nehmen oder auf die Ablesung verzichten.',
  bell: 'Die Maschine hat keine Glocke.',
  subtract:
    'Die Maschine addiert nur, und mit dem Komplement geht es hier nicht. Eine Maschine nehmen, die subtrahiert.',
};

const EACH = 'Für jeden Fall einen eigenen Rechengang schreiben.';
const VARYING: Readonly<Record<Varying, string>> = {
  transfer: `Ohne Rückübertragung müsste die Ablesung von Hand eingestellt werden, und sie ist nicht in jedem Fall dieselbe. ${EACH}`,
  dial: `Die Ziffern müssten stückweise eingestellt werden, und sie sind nicht in jedem Fall dieselben. ${EACH}`,
  complement: `Die Ziffern müssten ausgeschrieben werden, und sie sind nicht in jedem Fall dieselben. ${EACH}`,
  quotient: `Die Ziffern des Quotienten müssten einzeln gekurbelt werden, und sie sind nicht in jedem Fall dieselben. ${EACH}`,
  marker:
    'Die Kommamarken müssten anders stehen, und ein Parameter bestimmt ihre Stelle. Stattdessen eine Zahl schreiben.',
  reading: `Die Ablesung wäre eine andere und nicht in jedem Fall dieselbe. ${EACH}`,
  turns:
    'Was zu tun ist, ist nicht in jedem Fall oder jeder Runde dasselbe. Die Runden ausschreiben oder für jeden Fall einen eigenen Rechengang schreiben.',
};
