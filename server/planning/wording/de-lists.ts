/** What is said of plans for lists, in German. */
import { shortNumber } from '../../sequence/wording/de.js';
import { cleanText } from '../../sequence/wording/shared.js';
import type { ListLimit, ListRemark } from '../lists/order.js';
import { rangesOf } from './ranges.js';

/** The text of a `note`: what is said of lists alone, or nothing where it is said of every plan. */
export function listRemark(remark: ListRemark): string | undefined {
  switch (remark.is) {
    case 'pass':
      return `${remark.pass}. Durchgang von ${remark.of} durch die Liste.`;
    case 'rows':
      return `${remark.rows.length === 1 ? 'Zeile' : 'Zeilen'} ${list(rangesOf(remark.rows, ' bis '))}: ${list(remark.columns.map(cleanText))}.`;
    case 'rows-below-zero':
      return 'Die Zeilen ab hier werden abgezogen: in der Gegenrichtung drehen.';
    case 'counter-ahead':
      return 'Das Umdrehungszählwerk bekommt einen Vorsprung, damit es nicht unter null kommt. Es wird nicht abgelesen.';
    case 'standing': {
      const { register, from, to, sum, times, decimals } = remark;
      const places = from === to ? `Stelle ${from}` : `Stellen ${from} bis ${to}`;
      const marker = decimals === 0 ? '' : `, davon ${decimals} hinter dem Komma`;
      return `${places} im ${WORK[register]}: ${times === 2 ? 'das Doppelte der' : 'die'} Summe von ${cleanText(sum)}${marker}.`;
    }
    case 'read-off':
      return `Aufschreiben: ${remark.sums.map(({ name, value }) => `Summe von ${cleanText(name)} = ${shortNumber(value)}`).join(', ')}.`;
    default:
      return undefined;
  }
}

const WORK = { counter: 'Umdrehungszählwerk', result: 'Resultatwerk' } as const;

/** What stands in the way of a list alone, or nothing where it may stand in the way of every plan. */
export function listLimit(limit: ListLimit): string | undefined {
  switch (limit.is) {
    case 'rows':
      return `Die Liste hat ${limit.has} Zeilen, höchstens ${limit.most} sind möglich. Aufteilen und die Summen addieren.`;
    case 'sums':
      return `${limit.has} Summen sind verlangt, höchstens ${limit.most} sind möglich. Nach und nach verlangen.`;
    case 'steps':
      return `Die Liste braucht ${limit.has} Schritte, ein Rechengang darf ${limit.most} haben. Die Liste aufteilen.`;
    case 'turns':
      return `Die Liste braucht ${limit.has} Kurbelumdrehungen, ein Rechengang darf ${limit.most} haben. Die Liste aufteilen.`;
    case 'no-rows':
      return 'Die Liste hat keine Zeilen.';
    case 'no-sums':
      return 'Angeben, welche Summen gewünscht sind, etwa "sum(x), sum(x^2), sum(x*y)".';
    case 'short-row':
      return `Zeile ${limit.row} hat ${limit.has} Zahlen, nötig sind ${limit.needs}.`;
    case 'not-a-number':
      return `Zeile ${limit.row}, Spalte ${cleanText(limit.column)}: „${cleanText(limit.text)}“ ist keine Zahl.`;
    case 'not-a-sum':
      return `„${cleanText(limit.text)}“ ist keine Summe, die sich aus einer Liste bilden lässt. Geschrieben wird sum(x), sum(x^2) oder sum(x*y).`;
    case 'unknown-column':
      return `Eine Spalte ${cleanText(limit.name)} gibt es nicht. Es gibt: ${list(limit.columns.map(cleanText))}.`;
    case 'too-few-decimals':
      return `Die Summen haben ${limit.needs} Dezimalstellen, verlangt sind ${limit.has}. Eine Summe wird nicht abgeschnitten: ${limit.needs} verlangen.`;
    default:
      return undefined;
  }
}

const list = (words: readonly string[]): string =>
  words.length < 2 ? words.join('') : `${words.slice(0, -1).join(', ')} und ${words.at(-1)}`;
