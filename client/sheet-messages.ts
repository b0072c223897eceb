/** What the panel of a sheet and the extension say to each other. */
import type { Following } from './panel-target.js';
import type { Offer, SheetAnswer, SheetChoices } from './protocol.js';

/** What a panel is to show again after the window was closed: kept by the page, so that nothing else has to. */
export interface PanelState extends Following {
  /** Those that somebody has made; the others are as they come. */
  readonly choices: SheetChoices;
}

/** What the page says of itself, in the editor's language. */
export interface PageTexts {
  readonly panel: string;
  readonly sheet: string;
  readonly toolbar: string;
  readonly sequence: string;
  readonly follow: string;
  readonly kind: string;
  readonly language: string;
  readonly paper: string;
  readonly figures: string;
  readonly save: string;
  readonly print: string;
  /** Said of the button at length. */
  readonly printHow: string;
}

/** Why the sheet is not that of the text as it stands. */
export interface Trouble {
  readonly message: string;
  /** What is shown all the same. */
  readonly shown?: string;
  /** What leads to the place. */
  readonly place?: string;
}

export interface View {
  readonly state: PanelState;
  readonly sequence?: string | undefined;
  readonly sequences: SheetAnswer['sequences'];
  readonly made?: SheetAnswer['choices'] | undefined;
  readonly offers?: Readonly<Record<keyof SheetChoices, readonly Offer[]>> | undefined;
  readonly trouble?: Trouble | undefined;
  /** The whole sheet; left out where the page has it already, and empty where there is none. */
  readonly html?: string;
}

export type ToPage =
  | { readonly is: 'texts'; readonly language: string; readonly texts: PageTexts }
  | { readonly is: 'view'; readonly view: View }
  /** Something has been done: shown for a while, and read out. */
  | { readonly is: 'told'; readonly text: string }
  /** The browser is to put a file where it puts what it loads. */
  | { readonly is: 'download'; readonly name: string; readonly content: string };

export type FromPage =
  /** Nothing is shown before that: a page that was hidden begins anew. */
  | { readonly is: 'ready' }
  | { readonly is: 'choose'; readonly name: string; readonly value: string }
  | { readonly is: 'sequence'; readonly name: string }
  | { readonly is: 'follow'; readonly on: boolean }
  | { readonly is: 'save' }
  | { readonly is: 'print' }
  | { readonly is: 'mend' };
