/** What is said while a sequence is stepped through, in German. */
import type { SteppingWords } from './stepping-en.js';

const REGISTERS = { setting: 'Einstellwerk', counter: 'Zählwerk', result: 'Resultatwerk' };

export const stepping: SteppingWords = {
  lens: 'schrittweise',
  thread: (sequence, machine) => `${sequence} auf ${machine}`,
  frames: {
    inCase: (sequence, number) => `${sequence}, Fall ${number}`,
    round: (step, round, rounds) => `${step}, Durchgang ${round} von ${rounds}`,
    inRound: (step, round, rounds) => `${step} (Durchgang ${round} von ${rounds})`,
    made: (step, made, all) => `${step}, ${all === undefined ? turns(made) : `${made} von ${all}`} gemacht`,
    done: (step) => `${step}, getan`,
    byHand: (step) => `von Hand: ${step}`,
    inside: (step, frame) => `${step} (in ${frame})`,
    end: 'das Ende',
  },
  scopes: {
    registers: 'Werke',
    carriage: 'Schlitten und Hebel',
    markers: 'Kommaschieber',
    numbers: 'Zahlen',
    run: 'Lauf',
  },
  variables: {
    place: (place) => `Stelle ${place}`,
    position: 'Stellung',
    drive: 'Antrieb',
    count: 'Zählwerkhebel',
    'auto-clear': 'auto-clear',
    'auto-divide': 'auto-divide',
    places: {
      drive: ['Addition', 'Subtraktion'],
      count: ['plus', 'minus'],
      'auto-clear': ['aus', 'ein'],
      'auto-divide': ['aus', 'ein'],
    },
    outOfGear: 'außer Eingriff',
    bell: 'Glocke in der letzten Umdrehung oder im letzten Schritt',
    rang: 'hat geläutet',
    silent: 'still',
    wraps: 'Überläufe minus Unterschreitungen',
    turns: 'Umdrehungen',
    shifts: 'Verschiebungen',
    levers: 'bewegte Hebel',
    cost: 'Aufwand',
    step: 'Schritt',
    stepOf: (step, all) => `${step} von ${all}`,
    fault: 'Fehler',
    decimals: (n) => (n === 1 ? '1 Dezimale' : `${n} Dezimalen`),
  },
  yes: 'ja',
  no: 'nein',
  filters: { error: 'Fehler', warning: 'Warnungen', information: 'Informationen', hint: 'Hinweise' },
  filterHelp: 'Hält gleich hinter dem Schritt an, in dem es bemerkt wird.',
  conditionHelp: 'result > 1000 and position = 2',
  ended: 'Der Rechengang ist zu Ende. Die Maschine steht wie nach seinem letzten Schritt.',
  brokeOff: 'Der Lauf ist hier abgebrochen: Kein späterer Schritt wird ausgeführt.',
  changed: (what) => `${what} hat sich geändert`,
  entry: 'Vor dem ersten Schritt',
  breakpoints: {
    notHere: 'In dieser Datei steht kein Schritt, der in dieser Sitzung ausgeführt wird.',
    noSequence: 'Hier steht kein Rechengang, der in dieser Sitzung ausgeführt wird.',
    neverReached: 'Zu diesem Schritt kommt die Maschine in diesem Lauf nicht.',
    hits: (text) => `${text} sagt nicht, wie oft. Schreiben Sie 3, >= 3 oder % 2.`,
    noRegister: (name) => `${name} ist weder ein Werk noch ein Rad dieser Maschine.`,
    brace: 'Ein { im Text ist nicht geschlossen. Schreiben Sie, was abgelesen werden soll, als {result}.',
  },
  slip: (slip) => {
    switch (slip.is) {
      case 'empty':
        return 'Es wird nichts gefragt. Schreiben Sie eine Bedingung wie result > 1000.';
      case 'not-read':
        return `„${slip.found}“ ist nicht zu verstehen. Schreiben Sie Rechnungen wie in einem Ziel, mit setting, counter, result, position und wraps als Namen, verglichen durch = < > <= >= oder !=, etwa result > 1000 and position = 2.`;
      case 'unknown-name':
        return `Nichts namens ${slip.name} lässt sich hier ablesen.${slip.nearest ? ` Meinten Sie ${slip.nearest}?` : ' Es gibt setting, counter, result, position, wraps und die Parameter des Rechengangs.'}`;
      case 'no-such-place':
        return `Das ${REGISTERS[slip.register]} hat keine Stelle ${slip.place}: Die Stellen gehen von 1 bis ${slip.places}.`;
      case 'not-compared':
        return `${slip.found} sagt wie viel, und nicht ob. Vergleichen Sie, etwa ${slip.found} > 1000.`;
    }
  },
  noValue: 'Das hat keinen Wert: Es teilt durch null, zieht die Wurzel aus einer negativen Zahl oder wird zu groß.',
  byHand: {
    done: (step, changed) => `Von Hand: ${step}. ${changed}`,
    going: 'Es wird gerade gekurbelt. Halten Sie zuerst an und tun Sie es dann von Hand.',
    nothing: 'Es bewegt sich nichts.',
    dropped: 'Was später von Hand getan wurde, entfällt.',
    atEnd: 'Der Rechengang ist zu Ende, von Hand wird nichts mehr getan. Gehen Sie zuerst einen Schritt zurück.',
    refused: (why) => {
      switch (why.is) {
        case 'not-a-number':
          return `„${why.found}“ ist keine Zahl. Schreiben Sie Ziffern wie in einem Schritt: 245, oder 24.5 am Komma.`;
        case 'not-a-figure':
          return `„${why.found}“ ist keine Ziffer. Ein Rad oder Hebel nimmt eine von 0 bis 9.`;
        case 'not-a-place-of':
          return `„${why.found}“ gibt es da nicht. Einzustellen ist ${why.places[0]} oder ${why.places[1]}.`;
        case 'counter':
          return 'Das Zählwerk dreht allein die Kurbel. Von Hand lässt es sich löschen: Schreiben Sie 0.';
        case 'not-a-step':
          return `„${why.found}“ ist kein Schritt und nichts, was sich ablesen lässt. Schreiben Sie einen Schritt wie set 12 oder ein Werk.`;
        case 'not-single':
          return `${why.word} ist mehr als ein Handgriff. Schreiben Sie die einzelnen Schritte.`;
      }
    },
    readOnly: (name) => `${name} lässt sich nicht von Hand einstellen: Es folgt aus dem, was die Maschine tut.`,
    notDone: 'Der Lauf ist abgebrochen, bevor das von Hand getan werden konnte.',
  },
  text: {
    goesOn: 'Der Text hat sich geändert: Die Sitzung geht im neuen Lauf weiter.',
    handDropped: 'Was von Hand getan wurde, entfällt.',
    closed: 'Die Datei wurde geschlossen, ohne dass ihre Änderungen gespeichert sind. Die Sitzung endet.',
    gone: 'Die Datei lässt sich nicht mehr lesen: Sie wurde verschoben, gelöscht oder liegt außerhalb dieses Ordners. Die Sitzung endet.',
  },
  ends: (why) => `${why} Die Sitzung endet.`,
  launch: {
    noProgram: 'Durch welche Datei soll gegangen werden? Geben Sie ihren Pfad oder ihre Adresse als program an.',
    noFile: (name) => `${name} lässt sich nicht lesen.`,
    noSequences: 'In dieser Datei gibt es keinen Rechengang.',
    noSequence: (name) => `In dieser Datei gibt es keinen Rechengang namens ${name}.`,
    noCase: (name, number, cases) =>
      `${name} hat keinen Fall ${number}: Es gibt ${cases === 1 ? '1 Fall' : `${cases} Fälle`}, und 0 steht für die Vorgaben.`,
    notRun: (name) =>
      `${name} lässt sich nicht ausführen: Sehen Sie nach, was in seinem Text und an seiner Maschine gefunden ist.`,
    withFault: (fault) => `Die Maschine hat einen Fehler: ${fault}.`,
    unknown: (request) => `${request} wird hier nicht beantwortet.`,
    notStarted: 'Es wird noch durch keinen Rechengang gegangen.',
  },
};

const turns = (n: number): string => (n === 1 ? '1 Umdrehung' : `${n} Umdrehungen`);
