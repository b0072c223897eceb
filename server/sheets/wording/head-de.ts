/** What stands at the head of every kind of sheet, in German. */
import type { head as english } from './head-en.js';

const count = (n: number, one: string, many: string): string => `${n} ${n === 1 ? one : many}`;
const places = (n: number): string => count(n, 'Stelle', 'Stellen');

const MANUAL_FIRST =
  'Die Anleitung der Maschine selbst, die Vorschriften am Ort und an solchen Maschinen ausgebildete Personen gehen vor: Wo sie anderes sagen als dieses Blatt, gilt, was sie sagen.';
const FINISH = 'Jede Kurbelumdrehung zu Ende führen, bevor ein Hebel, der Schlitten oder ein Löschgriff berührt wird.';
const KEEP_OFF = 'Finger, Haare und weite Ärmel von allem fernhalten, was sich bewegt.';

export const head: typeof english = {
  cautions: {
    operating: [
      MANUAL_FIRST,
      FINISH,
      'Eine Kurbel oder einen Schlitten, der klemmt, nie mit Gewalt bewegen. Anhalten und jemanden fragen, der die Maschine kennt.',
      KEEP_OFF,
    ],
    exercise: [
      'Die Lehrkraft, die Anleitung der Maschine und die Vorschriften des Raums gehen vor; Reparaturen sind Sache ausgebildeter Personen.',
      FINISH,
      'Eine Kurbel oder einen Schlitten, der klemmt, nie mit Gewalt bewegen. Anhalten und die Lehrkraft rufen.',
      KEEP_OFF,
    ],
    key: [
      'Die Ablesungen gelten für die Maschine, die hier genannt ist. Eine anders gebaute zeigt unter Umständen anderes.',
      'Für alle, die beim Kurbeln Aufsicht führen: Die Anleitung der Maschine und die Vorschriften des Raums gehen vor; eine Maschine, die klemmt, gehört in die Hände ausgebildeter Personen.',
    ],
    bench: [
      'Dieses Blatt ersetzt keine Unterweisung. Die Anleitung der Maschine, die örtlichen Sicherheitsvorschriften und für diese Arbeit ausgebildete Personen gehen vor; Arbeiten, für die die Ausbildung fehlt, ihnen überlassen.',
      'Finger und Werkzeug aus dem Mechanismus halten, solange sich Kurbel oder Schlitten bewegen können.',
      'Eine Kurbel, einen Schlitten oder ein Rad, das klemmt, nie mit Gewalt bewegen. Zuerst die Ursache suchen.',
      'Federn stehen unter Spannung: Sie können wegspringen, und was sie halten, kann zuschnappen. Die Augen schützen.',
      'Nur Lösungsmittel, Öle und Fette verwenden, die die Anleitung der Maschine oder eine Fachkraft nennt, und deren Sicherheitshinweise befolgen.',
      'Altes Öl und Fett, alter Lack und Staub können gesundheitsschädlich sein: Hautkontakt vermeiden, Staub nicht einatmen und nach den örtlichen Vorschriften entsorgen.',
      'Festsitzende Teile nicht erwärmen, wenn nicht die Anleitung der Maschine oder eine Fachkraft es vorsieht: Rückstände können brennen, und Kunststoffe, Federn und Gussteile nehmen Schaden.',
    ],
  },
  time: (seconds) => {
    if (seconds === 0) return 'kaum Zeit';
    if (seconds < 90) return `etwa ${Math.ceil(seconds / 5) * 5} Sekunden`;
    const minutes = Math.ceil(seconds / 60);
    if (minutes < 90) return `etwa ${minutes} Minuten`;
    return `etwa ${count(Math.round(minutes / 60), 'Stunde', 'Stunden')}`;
  },
  assumed: (turn, shift, lever) =>
    `angenommen und nicht gemessen: ${count(turn, 'Sekunde', 'Sekunden')} je Kurbelumdrehung, ${count(shift, 'Sekunde', 'Sekunden')} je Stellung des Schlittens, ${count(lever, 'Sekunde', 'Sekunden')} je Hebel oder Taste; ohne Einstellen, Löschen und Ablesen`,

  machine: {
    labels: {
      setting: 'Einstellwerk',
      counter: 'Umdrehungszählwerk',
      result: 'Resultatwerk',
      carriage: 'Schlitten',
      subtract: 'Subtrahieren',
      count: 'Zählen',
      besides: 'Außerdem',
      wording: 'Wortlaut',
    },
    setting: (n) => count(n, 'Einstellhebel', 'Einstellhebel'),
    counter: (n, carry) =>
      n === 0
        ? 'keines'
        : `${places(n)}, ${
            {
              carry: 'mit Zehnerübertragung durch alle Stellen',
              plain: 'ohne Zehnerübertragung: Jedes Rad zählt für sich',
              signed: 'ohne Zehnerübertragung: Jedes Rad zeigt −9 bis 9, negative Ziffern sind gekennzeichnet',
            }[carry]
          }`,
    result: (n, reach) =>
      `${places(n)}, ${
        reach === undefined
          ? 'mit Zehnerübertragung durch alle Stellen'
          : `mit Zehnerübertragung über ${places(reach)}, von der Stellung des Schlittens an gezählt`
      }`,
    carriage: (n) => count(n, 'Stellung', 'Stellungen'),
    subtract: {
      reverse: 'die Kurbel lässt sich in beide Richtungen drehen; rückwärts subtrahiert sie',
      lever: 'die Kurbel dreht nur in eine Richtung; ein Hebel stellt den Antrieb auf Subtraktion',
      'half-step':
        'die Kurbel dreht nur in eine Richtung; eine halbe Stelle weiter rechts wird der Schlitten rückwärts angetrieben',
      lift: 'die Kurbel dreht nur in eine Richtung; gehoben subtrahiert sie',
      none: 'die Maschine addiert nur',
    },
    count: {
      follow: 'eine addierende Umdrehung zählt eins vor, eine subtrahierende eins zurück',
      lever:
        'eine addierende Umdrehung zählt eins vor, eine subtrahierende eins zurück; ein Umschalthebel kehrt das um',
      first:
        'die erste Umdrehung nach dem Löschen des Umdrehungszählwerks zählt vor; weitere in ihrer Richtung zählen vor, die anderen zurück',
    },
    wording: 'einige Schritte stehen in den eigenen Worten dieser Maschine',
    has: {
      dials: 'von Hand einstellbare Räder des Resultatwerks',
      park: 'eine Stelle außer Eingriff links von Stellung 1',
      bell: 'eine Glocke, die läutet, wenn das Resultatwerk überläuft oder unter null kommt',
      autoClear: 'eine Taste, die die Einstellhebel nach jeder Umdrehung auf 0 stellt',
      autoDivide: 'automatische Division',
      transferResult: 'Rückübertragung vom Resultatwerk auf die Einstellhebel',
      transferResultAt1: 'Rückübertragung vom Resultatwerk auf die Einstellhebel, in Stellung 1',
      transferCounter: 'Rückübertragung vom Umdrehungszählwerk auf die Einstellhebel',
    },
  },
};
