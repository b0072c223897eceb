/** What the messages of all languages need: text from a file and long numbers, made fit for a line. */

/** The longest piece of a file that a message quotes, in characters. */
const LONGEST_QUOTE = 40;
/** The most figures of a number that a message shows; no register shows more than twenty. */
const MOST_FIGURES = 40;

/** A piece of a file as a message can quote it, however odd it is: without control characters, and cut if long. */
export function cleanText(text: string): string {
  const characters = [...text.replace(/\p{C}/gu, '\ufffd')];
  return characters.length > LONGEST_QUOTE ? `${characters.slice(0, LONGEST_QUOTE).join('')}…` : characters.join('');
}

/** A number that a line has room for; `figures` is the language's word for them, said behind one that was cut. */
export function cutNumber(number: string, figures: string): string {
  const many = number.replace(/\D/g, '').length;
  return many <= MOST_FIGURES ? number : `${number.slice(0, 20)}… (${many} ${figures})`;
}

/** The most steps that a message writes out. */
const MOST_STEPS = 12;

/** Steps of the notation on one line, the last ones left out where they are many. */
export const stepsText = (steps: readonly string[]): string =>
  steps.length > MOST_STEPS ? `${steps.slice(0, MOST_STEPS).join('; ')}; …` : steps.join('; ');
