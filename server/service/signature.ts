/** How what is being typed is written, and which part of it comes next. */
import type { Position, SignatureHelp, SignatureInformation } from 'vscode-languageserver';
import { wordOf } from '../../grammar/tokens.js';
import type { SequenceHeader } from '../../grammar/tree.js';
import { markdown } from './completion/candidate.js';
import { type Context, contextAt } from './completion/context.js';
import { type Form, formOf, progressIn } from './completion/forms.js';
import type { ParsedDocument, Reader } from './document.js';
import { plain } from './markdown.js';
import type { Token } from './spots.js';

/**
 * The written forms of the item at a position that its tokens still fit, or what a sequence that is run takes.
 * Undefined where nothing more can follow, or no item is begun.
 */
export function signatureHelp(document: ParsedDocument, position: Position, reader: Reader): SignatureHelp | undefined {
  const context = contextAt(document, position);
  if (!context || context.begun.length === 0) return undefined;
  const { begun, rule } = context;
  if (rule === 'step' && begun[0].text === 'run' && begun.length > 1) {
    const header = document.library.scope(document.file).sequence(begun[1].text.normalize('NFC'))?.header;
    if (header) return runHelp(header, context);
  }
  return formHelp(context, reader);
}

/** `run NAME (…)` with the parameters of that sequence and their defaults. */
function runHelp({ name, title, parameters }: SequenceHeader, { begun }: Context): SignatureHelp | undefined {
  const given = begun.slice(2);
  const isOpen = given[0]?.text === '(';
  if (given.some(({ text }) => text === ')') || (given.length > 0 && !isOpen)) return undefined;
  if (!isOpen && parameters.length === 0) return undefined;
  const active = given.filter(({ text }) => text === ',').length;
  let label = `run ${name.name} (`;
  const spans = parameters.map((parameter, i): [number, number] => {
    if (i > 0) label += ', ';
    const from = label.length;
    label += `${parameter.name.name} = ${parameter.value.text}`;
    return [from, label.length];
  });
  const isBeyond = active >= parameters.length;
  return {
    signatures: [
      {
        label: `${label})`,
        // An index past the end would be taken for the first one.
        parameters: isBeyond ? [] : spans.map((span) => ({ label: span })),
        ...(title && { documentation: markdown(plain(title.value)) }),
        ...(!isBeyond && { activeParameter: active }),
      },
    ],
    activeSignature: 0,
    ...(!isBeyond && { activeParameter: active }),
  };
}

function formHelp({ begun, typed, rule }: Context, reader: Reader): SignatureHelp | undefined {
  const [{ text: first }] = begun;
  const entry = wordOf(first);
  const kind = rule === 'header' ? 'section' : rule === 'profileLine' ? 'machine' : 'step';
  const forms = entry?.forms?.[kind]?.map(formOf);
  if (!forms || (rule === 'foundLine') !== (first === 'found')) return undefined;
  const tokens = readable(begun);
  const open = forms.map((form) => ({ form, progress: progressIn(form, tokens, typed) }));
  const documentation = markdown(plain(reader.words.meanings[first] ?? entry?.meaning ?? ''));
  const fitting = open.flatMap(({ form, progress }) => {
    return typeof progress === 'object'
      ? [{ signature: signatureOf(form, progress.part), isWord: progress.isWord }]
      : [];
  });
  if (fitting.length === 0 && open.some(({ progress }) => progress === 'finished')) return undefined;
  const shown = fitting.length > 0 ? fitting.map(({ signature }) => signature) : forms.map((form) => signatureOf(form));
  // A word that is half written is rather one of the notation than the name of a parameter.
  const likeliest = Math.max(
    0,
    fitting.findIndex(({ isWord }) => isWord),
  );
  const { activeParameter } = shown[likeliest];
  return {
    signatures: shown.map((signature) => ({ ...signature, documentation })),
    activeSignature: likeliest,
    ...(activeParameter != null && { activeParameter }),
  };
}

/** What the forms leave unsaid, since it may stand anywhere in a reading: a minus, and a label. */
function readable(begun: readonly Token[]): readonly Token[] {
  if (begun[0].text !== 'expect' && begun[0].text !== 'found') return begun;
  return begun.filter(({ text }, i) => text !== '-' && text !== 'as' && begun[i - 1]?.text !== 'as');
}

/** A form with its parts, of which one is in hand; without parts where that can't be told. */
function signatureOf({ label, parts }: Form, part?: number): SignatureInformation {
  if (part === undefined) return { label, parameters: [] };
  return { label, parameters: parts.map(({ from, to }) => ({ label: [from, to] })), activeParameter: part };
}
