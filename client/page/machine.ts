/** The script of the panel that shows the machine: shows what the extension sends, and says what is wanted. */
import type { FromMachinePage, MachineState, MachineTexts, MachineView, ToMachinePage } from '../machine-messages.js';
import type { MachineFrame, MachineRemark } from '../protocol.js';
import { editorOf, fill, label, named, part, showTrouble } from './dom.js';
import { FigureView } from './figure.js';
import { Live } from './live.js';
import { deedOf } from './machine-keys.js';

/** Milliseconds between two moments below which somebody is in a hurry: then nothing moves on its way. */
const HURRY = 250;
const MOVES = {
  stepBack: { by: 'step', count: -1 },
  turnBack: { by: 'turn', count: -1 },
  turn: { by: 'turn', count: 1 },
  step: { by: 'step', count: 1 },
} as const;

const editor = editorOf<FromMachinePage, MachineState>();
const send = (message: FromMachinePage): void => editor.postMessage(message);
const sequence = part<HTMLSelectElement>('#sequence');
const inCase = part<HTMLSelectElement>('#case');
const follow = part<HTMLInputElement>('#follow');
const moment = part<HTMLInputElement>('#moment');
const place = part<HTMLButtonElement>('#place');
const remarks = part<HTMLUListElement>('#remarks');
const figure = new FigureView(part('#figure'), (name) => send({ is: 'part', part: name }));
const live = new Live(part('#live'));

/** What is shown, and since when. */
let shown: MachineView | undefined;
let shownAt = Number.NEGATIVE_INFINITY;
/** Somebody has the slider in hand: it is left where it is. */
let isDragged = false;

function say({ language, texts }: { readonly language: string; readonly texts: MachineTexts }): void {
  document.documentElement.lang = language;
  document.title = texts.panel;
  part('h1').textContent = texts.panel;
  part('#tools').setAttribute('aria-label', texts.toolbar);
  part('#travel').setAttribute('aria-label', texts.travel);
  part('#figure').setAttribute('aria-label', texts.figure);
  moment.setAttribute('aria-label', texts.moment);
  place.title = texts.toText;
  remarks.setAttribute('aria-label', texts.remarks);
  for (const name of ['sequence', 'case', 'follow'] as const) label(name, texts[name]);
  for (const name of ['start', 'stepBack', 'turnBack', 'turn', 'step', 'end'] as const) {
    part(`#${name}`).textContent = texts[name];
  }
  for (const name of ['setting', 'result', 'counter', 'rest'] as const) figure.name(name, texts[name]);
  part('#keys').replaceChildren(...texts.help.map(([keys, does]) => entry(keys, does)));
  part('#keys').setAttribute('aria-label', texts.keys);
}

function entry(keys: string, does: string): HTMLElement {
  const pair = document.createElement('div');
  pair.append(element('dt', keys), element('dd', does));
  return pair;
}

function element(name: string, text: string): HTMLElement {
  const made = document.createElement(name);
  made.textContent = text;
  return made;
}

function show(view: MachineView): void {
  const before = shown;
  shown = view;
  fill(sequence, named(view.sequences), view.sequence);
  const cases = view.cases.map((text, number) => ({ value: String(number), label: text }));
  fill(inCase, cases, String(view.case));
  part('label:has(#case)').hidden = cases.length < 2;
  follow.checked = view.state.follows;
  showTrouble(view.trouble);
  showFrame(view.frame, before);
  editor.setState(view.state);
}

function showFrame(frame: MachineFrame | undefined, before: MachineView | undefined): void {
  const now = performance.now();
  const isSame = before?.sequence === shown?.sequence && before?.case === shown?.case;
  const last = isSame ? before?.frame : undefined;
  const hasMoved = frame?.moment !== last?.moment;
  const isNear = frame !== undefined && last !== undefined && Math.abs(frame.steps - last.steps) <= 1;
  const isFast = now - shownAt < HURRY;
  if (hasMoved) shownAt = now;
  for (const name of ['#travel', '#done', '#effort', '#keys']) part(name).hidden = frame === undefined;
  figure.show(frame?.figure, isNear && hasMoved && !isFast);
  remarks.hidden = !frame || frame.remarks.length === 0;
  if (!frame) return;
  if (!isDragged) {
    moment.max = String(frame.moments - 1);
    moment.value = String(frame.moment);
  }
  moment.setAttribute('aria-valuetext', [frame.where, frame.step?.text ?? ''].filter(Boolean).join(': '));
  const { step } = frame;
  place.hidden = step === undefined;
  place.textContent = step?.text ?? '';
  part('#sentence').textContent = step?.sentence ?? '';
  part('#where').textContent = frame.where;
  part('#effort').textContent = frame.effort;
  remarks.replaceChildren(...frame.remarks.map(remark));
  // Where nothing can move any more that way, the button says so; it keeps the focus.
  for (const [names, isOver] of [
    [['start', 'stepBack', 'turnBack'], frame.moment === 0],
    [['end', 'step', 'turn'], frame.moment === frame.moments - 1],
  ] as const) {
    for (const name of names) part(`#${name}`).setAttribute('aria-disabled', String(isOver));
  }
  const told = [frame.changed, ...frame.remarks.map(({ when, message }) => `${when}: ${message}`)].join('. ');
  if (last === undefined) live.know(told);
  else if (hasMoved) live.say(told);
}

function remark({ level, when, message, marked }: MachineRemark): HTMLElement {
  const item = document.createElement('li');
  item.className = level;
  const text = document.createElement('p');
  text.append(element('strong', `${when}:`), ` ${message}`);
  item.append(text);
  if (marked !== undefined) item.append(element('p', marked));
  return item;
}

addEventListener('message', ({ data }: MessageEvent<ToMachinePage>) => {
  if (data.is === 'texts') return say(data);
  show(data.view);
  // As soon as it can be seen, the next one may come.
  requestAnimationFrame(() => send({ is: 'drawn' }));
});

const lastMoment = (): number => Number(moment.max);
const goTo = (wanted: number): void => send({ is: 'moment', moment: wanted });

addEventListener('keydown', (event) => {
  // Lists and the switch have keys of their own.
  if (event.target instanceof HTMLSelectElement || !shown?.frame) return;
  const deed = deedOf(event);
  if (deed === undefined) return;
  if (deed === 'up' || deed === 'down') {
    // On the slider they are a turn, elsewhere they move the page.
    if (figure.goOn(deed === 'up' ? 1 : -1)) event.preventDefault();
    return;
  }
  event.preventDefault();
  if (deed === 'start') goTo(0);
  else if (deed === 'end') goTo(lastMoment());
  else send({ is: 'move', ...deed });
});
for (const [name, move] of Object.entries(MOVES)) {
  part(`#${name}`).addEventListener('click', () => send({ is: 'move', ...move }));
}
part('#start').addEventListener('click', () => goTo(0));
part('#end').addEventListener('click', () => goTo(lastMoment()));
moment.addEventListener('pointerdown', () => {
  isDragged = true;
});
for (const type of ['pointerup', 'pointercancel', 'blur'])
  addEventListener(type, () => {
    isDragged = false;
  });
moment.addEventListener('input', () => goTo(Number(moment.value)));
sequence.addEventListener('change', () => send({ is: 'sequence', name: sequence.value }));
inCase.addEventListener('change', () => send({ is: 'case', number: Number(inCase.value) }));
follow.addEventListener('change', () => send({ is: 'follow', on: follow.checked }));
place.addEventListener('click', () => send({ is: 'step' }));
part('#trouble button').addEventListener('click', () => send({ is: 'mend' }));
send({ is: 'ready' });
