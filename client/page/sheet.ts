/** The script of the panel of a sheet: shows what the extension sends, and says what is chosen. */
import type { FromPage, PageTexts, PanelState, ToPage, View } from '../sheet-messages.js';
import { editorOf, fill, label, named, part, showTrouble } from './dom.js';
import { SheetFrame } from './sheet-frame.js';

/** What is kept of a page over a restart of the window. */
interface Kept extends PanelState {
  readonly scroll: number;
}

const editor = editorOf<FromPage, Kept>();
const choices = ['kind', 'language', 'figures', 'paper'] as const;
const sequence = part<HTMLSelectElement>('#sequence');
const follow = part<HTMLInputElement>('#follow');
const told = part('#told');

let state: PanelState | undefined;
const keep = (): void => {
  if (state) editor.setState({ ...state, scroll: frame.scroll });
};
const kept = editor.getState() as Partial<Kept> | undefined;
const frame = new SheetFrame(part<HTMLIFrameElement>('#sheet'), keep, kept?.scroll ?? 0);

function say({ language, texts }: { readonly language: string; readonly texts: PageTexts }): void {
  document.documentElement.lang = language;
  document.title = texts.panel;
  part('h1').textContent = texts.panel;
  part('#tools').setAttribute('aria-label', texts.toolbar);
  part('#sheet').title = texts.sheet;
  for (const name of [...choices, 'sequence', 'follow'] as const) label(name, texts[name]);
  part('#save').textContent = texts.save;
  part('#print').textContent = texts.print;
  part('#print').title = texts.printHow;
}

function show(view: View): void {
  state = view.state;
  fill(sequence, named(view.sequences), view.sequence);
  follow.checked = view.state.follows;
  for (const name of choices) fill(part(`#${name}`), view.offers?.[name] ?? [], view.made?.[name]);
  showTrouble(view.trouble);
  const { made } = view;
  // Another sheet is read from its top.
  if (view.html !== undefined)
    frame.show(view.html, [view.state.uri, view.sequence, made?.kind, made?.language].join('\n'));
  keep();
}

function download(name: string, content: string): void {
  const link = document.createElement('a');
  link.href = URL.createObjectURL(new Blob([content], { type: 'text/html' }));
  link.download = name;
  link.click();
  setTimeout(() => URL.revokeObjectURL(link.href), 60_000);
}

addEventListener('message', ({ data }: MessageEvent<ToPage>) => {
  switch (data.is) {
    case 'texts':
      return say(data);
    case 'view':
      return show(data.view);
    case 'told':
      told.textContent = data.text;
      return;
    case 'download':
      return download(data.name, data.content);
  }
});
/** Whatever somebody does, what was said of the last thing that they did is over. */
const send = (message: FromPage): void => {
  told.textContent = '';
  editor.postMessage(message);
};
for (const name of choices) {
  const select = part<HTMLSelectElement>(`#${name}`);
  select.addEventListener('change', () => send({ is: 'choose', name, value: select.value }));
}
sequence.addEventListener('change', () => send({ is: 'sequence', name: sequence.value }));
follow.addEventListener('change', () => send({ is: 'follow', on: follow.checked }));
for (const is of ['save', 'print'] as const) part(`#${is}`).addEventListener('click', () => send({ is }));
part('#trouble button').addEventListener('click', () => send({ is: 'mend' }));
editor.postMessage({ is: 'ready' });
