/** What stands in a proving sequence, and what is said of it, in German. */
import type { MechanismPart } from '../../machine/index.js';
import type { Effort } from '../../sequence/effort.js';

export const proofTitle: string = 'Prüft alles, was sich bewegt';
export const proofTitleOf = (parts: readonly string[]): string => `Prüft: ${parts.join(', ')}`;

export const proofCautions: readonly string[] = [
  'Die Kurbel nie mit Gewalt drehen. Geht sie schwer oder bleibt sie stehen, nicht weiterdrehen und die Ursache suchen.',
  'Jede Umdrehung zu Ende führen, ehe etwas anderes bewegt wird.',
  'Den Schlitten nicht mitten in einer Umdrehung verschieben.',
];

export const proofNote: Readonly<Record<MechanismPart, string>> = {
  levers:
    'Einstellhebel. Jeder steht einmal auf jeder seiner neun Ziffern. Was sich dabei noch bewegt, wird mitgeprüft.',
  'tens-carry':
    'Zehnerübertragung des Resultatwerks. Kein Übertrag darf unterwegs fehlen, und keiner von selbst wiederkommen.',
  counter: 'Umdrehungszählwerk. Jede Stelle zählt und gibt ihren Übertrag weiter.',
  clearing: 'Löschung. Was gelöscht ist, steht in jeder Stelle auf 0.',
  transfer: 'Rückübertragung. Jeder Hebel nimmt die Ziffer seiner Stelle an.',
  bell: 'Glocke. Sie läutet, wenn das Resultat über sein Ende geht.',
};

export const caughtText = (caught: number, uncaught: number, beyond: number): string =>
  [
    uncaught === 0
      ? `Deckt alle ${caught} Fehler auf, die sich auf dieser Maschine zeigen können.`
      : `Deckt ${caught} von ${caught + uncaught} Fehlern auf, die sich auf dieser Maschine zeigen können; die übrigen brauchten jeder mehr als tausend Umdrehungen.`,
    ...(beyond > 0 ? [`Weitere ${beyond} können sich nie zeigen: Kein Rechengang erreicht die Stelle.`] : []),
  ].join(' ');

const work = ({ turns, shifts, levers }: Effort): string =>
  [`${turns} Umdrehungen`, `${shifts} Verschiebungen`, levers > 0 ? `${levers} Hebelbewegungen` : '']
    .filter(Boolean)
    .join(', ');

export const proofEffortText = (effort: Effort, least: Effort, readings: number): string =>
  `Aufwand ${effort.cost} (${work(effort)}), ${readings} Ablesungen aufzuschreiben. Mit weniger als ${least.cost} geht es nicht.`;

export const leastText: string =
  'Die Grenze: Ein Hebel steht in einer Umdrehung auf einer Ziffer, und jede Stelle des Zählwerks zählt in einer eigenen Umdrehung; der Schlitten muss zur fernsten geprüften Stelle, und für eine Zehnerübertragung des Zählwerks zurück, oder es sind zehn Umdrehungen mehr; und was umgeschaltet wird, muss zurück.';

export const remarkedText: string =
  'Auf dieser Maschine zeigen sich manche Fehler nur dort, wo check etwas zu bemerken hat, etwa ein Zählwerk, das unter null geht.';
