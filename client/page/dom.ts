/** What the pages of panels have in common: finding their parts, and filling lists. */

/** What an editor gives to the page of a panel. */
export interface Editor<Message, Kept> {
  postMessage(message: Message): void;
  getState(): unknown;
  /** Kept over a restart of the window. */
  setState(state: Kept): void;
}
declare function acquireVsCodeApi(): Editor<unknown, unknown>;

export const editorOf = <Message, Kept>(): Editor<Message, Kept> => acquireVsCodeApi();

/** A part of the page that is always there. */
export function part<E extends HTMLElement>(selector: string): E {
  const found = document.querySelector<E>(selector);
  if (!found) throw new Error(`${selector} is missing`);
  return found;
}

/** Offers as they are: a list that somebody has open is left alone where nothing has changed. */
export function fill(
  select: HTMLSelectElement,
  offers: readonly { readonly value: string; readonly label: string }[],
  chosen?: string,
): void {
  const before = [...select.options].map(({ value, text }) => `${value} ${text}`).join('\n');
  if (before !== offers.map(({ value, label }) => `${value} ${label}`).join('\n')) {
    select.replaceChildren(...offers.map(({ value, label }) => new Option(label, value)));
  }
  select.value = chosen ?? '';
  select.disabled = offers.length === 0;
}

/** Sequences as they stand in a list. */
export const named = (sequences: readonly { readonly name: string; readonly title: string }[]) =>
  sequences.map(({ name, title }) => ({ value: name, label: title ? `${name} – ${title}` : name }));

/** What a control is called. */
export function label(name: string, text: string): void {
  part(`label:has(#${name}) span`).textContent = text;
}

/** Says what is wrong, with a button that leads to the place. */
export function showTrouble(
  trouble: { readonly message: string; readonly shown?: string; readonly place?: string } | undefined,
): void {
  const box = part('#trouble');
  const mend = part<HTMLButtonElement>('#trouble button');
  box.hidden = trouble === undefined;
  part('#trouble p').textContent = trouble?.message ?? '';
  part('#trouble p + p').textContent = trouble?.shown ?? '';
  mend.hidden = trouble?.place === undefined;
  mend.textContent = trouble?.place ?? '';
}
