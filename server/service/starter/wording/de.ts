/** What stands in a file that is begun for somebody, and how it is offered, in German. */
import type { starter as english } from './en.js';

export const starter: typeof english = {
  machines: {
    pinwheel: {
      name: 'sprossenrad-9',
      label: 'Sprossenradmaschine',
      detail: 'Die Kurbel dreht in beide Richtungen; rückwärts subtrahiert. Mit Glocke.',
    },
    'lifted-crank': {
      name: 'walze-8',
      label: 'Walzenmaschine mit hebbarer Kurbel',
      detail: 'Die Kurbel dreht in eine Richtung. Die erste Umdrehung legt die Zählweise fest.',
    },
    'drive-lever': {
      name: 'groß-12',
      label: 'Große Maschine mit Antriebshebel',
      detail: 'Ein Hebel stellt den Antrieb um, ein anderer das Zählwerk. Zwanzig Stellen.',
    },
    'half-step': {
      name: 'halbschritt-10',
      label: 'Halbschrittmaschine',
      detail: 'Der Schlitten eine halbe Stelle rechts subtrahiert. Sie dividiert von selbst.',
    },
    learner: {
      name: 'pult-8',
      label: 'Tischmaschine für den Unterricht',
      detail: 'Die Kurbel dreht in beide Richtungen. Zählwerk ohne Zehnerübertragung.',
    },
    'marked-counter': {
      name: 'gemerkt-9',
      label: 'Maschine, deren Zählwerk Umdrehungen zurück kennzeichnet',
      detail: 'Eine Abkürzung wie 300 weniger 2 ist abzulesen, wie sie gekurbelt wurde.',
    },
    'short-carry': {
      name: 'früh-8',
      label: 'Frühe Maschine mit kurzer Zehnerübertragung',
      detail: 'Die Zehnerübertragung endet zehn Stellen vom Schlitten: Grenzen beachten.',
    },
    adding: {
      name: 'addierer-9',
      label: 'Addiermaschine',
      detail: 'Sie addiert, sonst nichts. Kein Zählwerk; Ergänzungen subtrahieren.',
    },
  },
  tasks: {
    multiply: {
      label: 'Zwei Zahlen multiplizieren',
      detail: 'Die Fläche eines Beets, mit Dezimalstellen und der Ablesung am Ende.',
    },
    divide: { label: 'Dividieren', detail: 'Wie viel für jedes: der Quotient im Zählwerk, mit seinen Dezimalstellen.' },
    add: { label: 'Eine Spalte addieren', detail: 'Die Zettel eines Markttags, einer nach dem anderen.' },
    subtract: { label: 'Subtrahieren', detail: 'Was im Schuppen bleibt, so wie diese Maschine subtrahiert.' },
    exercise: {
      label: 'Eine Aufgabe mit mehreren Fällen',
      detail: 'Für eine Klasse: Lücken zum Ausfüllen, eine Aufgabe für jeden Fall.',
    },
    instruction: {
      label: 'Eine Bedienungsanleitung',
      detail: 'Mit Warnungen, Hinweisen und einer Ablesung unterwegs, zum Drucken.',
    },
    bench: {
      label: 'Ein Prüfgang für die Werkbank, mit Protokoll',
      detail: 'Alles, was sich bewegt, wird geprüft; was die Maschine zeigt, wird notiert.',
    },
  },
  aboveMachine: [
    'Die Maschine. Hinter jedem # steht, was die Zeile besagt. Ändern Sie die Zeilen, bis sie Ihre Maschine',
    'beschreiben: weniger Hebel, eine andere Übertragung, keine Glocke. Die Ablesungen folgen sofort.',
  ],
  effort: 'was eine Umdrehung, eine Stellung des Schlittens und ein Hebel kosten',
  sequences: {
    multiply: { name: 'beetfläche', title: 'Fläche eines Beets' },
    divide: { name: 'rohr-je-beet', title: 'Rohr für jedes Beet' },
    add: { name: 'markttag', title: 'Einnahmen eines Markttags' },
    subtract: { name: 'töpfe-übrig', title: 'Töpfe, die im Schuppen bleiben' },
    exercise: { name: 'töpfe-im-regal', title: 'Wie viele Töpfe?' },
    instruction: { name: 'topfbestand', title: 'Bestand an Töpfen nach einem Tag' },
    bench: { name: 'prüfgang', title: '' },
  },
  sumExercise: { name: 'zwei-zettel', title: 'Wie viel zusammen?' },
  planned: [
    'Das Ziel (goal) sagt, was gesucht ist; die Schritte sind die mit dem geringsten Aufwand auf dieser',
    'Maschine. Schreiben Sie Ihre Zahlen in das Ziel, setzen Sie die Schreibmarke darauf und lassen Sie die',
    'Glühbirne die Schritte ersetzen.',
  ],
  exercise: [
    'Die ersten Zahlen sind die Vorgaben, jeder Fall (case) hat seine eigenen. Was hinter ask steht, ist auf',
    'dem Aufgabenblatt eine Lücke und steht auf dem Lösungsblatt: Öffnen Sie ein Blatt neben dem Text und',
    'wählen Sie dort seine Art.',
  ],
  instruction: [
    'Jeder Schritt ist auf dem gedruckten Blatt ein Satz, und wo ein Abschnitt endet, ist die Maschine',
    'gezeichnet. Öffnen Sie ein Blatt neben dem Text, und schreiben Sie Warnungen und Hinweise so, wie Ihre',
    'Leser sie brauchen.',
  ],
  bench: [
    'Kurbeln Sie das auf Ihrer Maschine. Vergleichen Sie bei jedem expect, was sie zeigt; die Namen hinter',
    'as führen zum Protokoll darunter.',
  ],
  record: [
    'Was Ihre Maschine zeigt. Nehmen Sie vor jeder Zeile, die Sie abgelesen haben, das # weg, und schreiben',
    'Sie, was auf der Maschine steht, an die Stelle der Ziffern, die hier die einer heilen sind. Was abweicht,',
    'wird gemeldet; zeigen Sie auf das Wort bench, und Sie erfahren, welcher einzelne Fehler es erklärt.',
  ],
  recordTitle: 'Erste Sitzung an der Werkbank',
  parameters: { product: ['regale', 'töpfe'], sum: ['erster-zettel', 'zweiter-zettel'] },
  cautions: [
    'Die Kurbel nie mit Gewalt drehen. Bewegt sie sich nicht, so ist die letzte Umdrehung nicht zu Ende.',
    'Jede Umdrehung zu Ende führen, ehe ein Hebel oder der Schlitten bewegt wird.',
  ],
  notes: ['Was am Morgen im Schuppen steht.', 'Was dazukommt.', 'Was hinausgeht.'],
  reading: 'eingegangen',
  lastReading: 'bestand',
  unsuited: (machine, task) =>
    `${machine}: Sie hat keine Stellungen und kein Zählwerk, darum gibt es keinen Rechengang für „${task}“. Wählen Sie eine andere Maschine oder eine andere Aufgabe.`,
};
