/** A sheet of one of a document's sequences, for an editor to show, save or print: `cranknote/sheet`. */
import type { Range } from 'vscode-languageserver';
import type { Gradual } from '../../grammar/gradual.js';
import type { NameSyntax, SequenceSection } from '../../grammar/tree.js';
import { languageOf } from '../sequence/wording/index.js';
import { htmlGradually } from '../sheets/html.js';
import { toMarkdown } from '../sheets/markdown.js';
import {
  DEFAULT_SHEET,
  FIGURE_CHOICES,
  type FigureChoice,
  PAPERS,
  type Paper,
  SHEET_KINDS,
  type SheetKind,
} from '../sheets/model.js';
import { type RefusalReason, refusal } from '../sheets/refusal.js';
import { isSheetRefused, sheetGradually } from '../sheets/sheet.js';
import { SHEET_LANGUAGES, sheetWords } from '../sheets/wording/index.js';
import type { AnalysedDocument, Reader } from './document.js';
import { onOneLine } from './markdown.js';
import { sequenceReport } from './readings.js';
import { type Outline, outlineOf, sequencesOf, sequenceWanted } from './sequences.js';
import { locationOf, locationOn } from './spots.js';

/** How a sheet is made; what is left out is as it is on the command line, and the language is the editor's. */
export interface SheetChoices {
  readonly kind: SheetKind;
  readonly language: string;
  readonly paper: Paper;
  readonly figures: FigureChoice;
  readonly format: 'html' | 'markdown';
}

export interface SheetAsked extends SheetChoices {
  readonly uri: string;
  /** The name of the sequence. */
  readonly sequence?: string;
  /** Where no name is given: the sequence that this line belongs to, counted from 0. */
  readonly line?: number;
}

export interface SheetAnswer {
  /** What the sheet is of; missing where the document has no such sequence. */
  readonly sequence?: string;
  /** All sequences of the document, from its top, and the lines that they take. */
  readonly sequences: readonly Outline[];
  /** As it was made. */
  readonly choices: SheetChoices;
  /** All that may be chosen, and what it is called in the editor's language. */
  readonly offers: Readonly<Record<Exclude<keyof SheetChoices, 'format'>, readonly Offer[]>>;
  /** The title and the whole page or text; missing where there is no sheet. */
  readonly sheet?: { readonly title: string; readonly content: string };
  /** Why there is none, in the editor's language, and where to mend it. */
  readonly refused?: { readonly message: string; readonly at?: { readonly uri: string; readonly range: Range } };
}

interface Offer {
  readonly value: string;
  readonly label: string;
}

/** What each may be. */
const VALUES = {
  kind: SHEET_KINDS,
  language: SHEET_LANGUAGES,
  paper: PAPERS,
  figures: FIGURE_CHOICES,
  format: ['html', 'markdown'],
} as const satisfies Record<keyof SheetChoices, readonly string[]>;

/** What a client asks for; a text says what is wrong with it, to whoever wrote the client. */
export function sheetAsked(sent: unknown, locale: string): SheetAsked | string {
  const at = (typeof sent === 'object' && sent !== null ? sent : {}) as Readonly<Record<string, unknown>>;
  const { uri, sequence, line } = at;
  if (typeof uri !== 'string') return 'A document is needed: uri.';
  if (sequence !== undefined && typeof sequence !== 'string') return 'sequence is the name of a sequence.';
  if (line !== undefined && !(Number.isInteger(line) && (line as number) >= 0))
    return 'line is a whole number, counted from 0.';
  const own = SHEET_LANGUAGES.find((language) => language === languageOf(locale)) ?? SHEET_LANGUAGES[0];
  const defaults: Readonly<Record<string, string>> = { ...DEFAULT_SHEET, language: own };
  const choices: Record<string, string> = {};
  for (const [name, values] of Object.entries<readonly string[]>(VALUES)) {
    const value = at[name] ?? defaults[name];
    if (typeof value !== 'string' || !values.includes(value)) return `${name} is one of ${values.join(', ')}.`;
    choices[name] = value;
  }
  return {
    ...(choices as unknown as SheetChoices),
    uri,
    ...(typeof sequence === 'string' && { sequence }),
    ...(typeof line === 'number' && { line }),
  };
}

/** The sheet, or why there is none. What the run of the document is, is what is printed. */
export function* shownSheetGradually(
  document: AnalysedDocument,
  asked: SheetAsked,
  reader: Reader,
): Gradual<SheetAnswer> {
  const { kind, language, paper, figures, format } = asked;
  const all = sequencesOf(document);
  const answer: SheetAnswer = {
    sequences: all.map(outlineOf),
    choices: { kind, language, paper, figures, format },
    offers: offersFor(reader),
  };
  const found = sequenceWanted(all, asked);
  if (!found) {
    const { sheet, traced } = reader.words;
    const message = asked.sequence === undefined ? sheet.noSequence : traced.noSequence(onOneLine(asked.sequence));
    return { ...answer, refused: { message } };
  }
  const { section, name } = found;
  const report = sequenceReport(document, section);
  const made = report
    ? yield* sheetGradually({ kind, language, figures, report, file: document.file })
    : refusal({ is: 'not-run' }, reader.locale);
  if (isSheetRefused(made)) {
    const { message } = refusal(made.refused, reader.locale);
    const at = placeOf(document, section, name, made.refused);
    return { ...answer, sequence: name.name, refused: { message: onOneLine(message), at } };
  }
  const words = sheetWords(language);
  const content = format === 'html' ? yield* htmlGradually(made, words, { paper }) : toMarkdown(made, words);
  return { ...answer, sequence: name.name, sheet: { title: onOneLine(made.title), content } };
}

/** Where the first error is; the sequence's name where the trouble is with the whole. */
function placeOf(document: AnalysedDocument, section: SequenceSection, name: NameSyntax, reason: RefusalReason) {
  const place = reason.is === 'errors' ? reason.findings[0].at : undefined;
  return place ? locationOf(document, place) : locationOn(document, section, 0, name);
}

function offersFor({ locale, words }: Reader): SheetAnswer['offers'] {
  const { kinds } = sheetWords(locale).page;
  const { languages, papers, figures } = words.sheet;
  const offers = (values: readonly string[], labels: Readonly<Record<string, string>>): Offer[] =>
    values.map((value) => ({ value, label: labels[value] ?? value }));
  return {
    kind: offers(VALUES.kind, kinds),
    language: offers(VALUES.language, languages),
    paper: offers(VALUES.paper, papers),
    figures: offers(FIGURE_CHOICES, figures),
  };
}
