/** What the panel that shows the machine and the extension say to each other. */
import type { Following } from './panel-target.js';
import type { MachineFrame, Move, SequenceOutline } from './protocol.js';

/** What a panel is to show again after the window was closed: kept by the page, so that nothing else has to. */
export interface MachineState extends Following {
  /** Missing where nobody has chosen one: then it is the case whose readings are shown. */
  readonly case?: number;
  readonly moment?: number;
}

/** What the page says of itself, in the editor's language. */
export interface MachineTexts {
  readonly panel: string;
  readonly toolbar: string;
  readonly sequence: string;
  readonly case: string;
  readonly follow: string;
  /** Of the slider, and the buttons beside it. */
  readonly travel: string;
  readonly moment: string;
  readonly start: string;
  readonly stepBack: string;
  readonly turnBack: string;
  readonly turn: string;
  readonly step: string;
  readonly end: string;
  /** Of the step: a click leads to the text. */
  readonly toText: string;
  readonly figure: string;
  readonly setting: string;
  readonly result: string;
  readonly counter: string;
  readonly rest: string;
  readonly remarks: string;
  readonly keys: string;
  /** Keys, and what they do. */
  readonly help: readonly (readonly [keys: string, does: string])[];
}

/** What stands against the machine as it is shown. */
export interface MachineTrouble {
  readonly message: string;
  /** What is shown all the same. */
  readonly shown?: string;
  /** What leads to the place. */
  readonly place?: string;
}

export interface MachineView {
  readonly state: MachineState;
  readonly sequence?: string | undefined;
  readonly sequences: readonly SequenceOutline[];
  readonly cases: readonly string[];
  readonly case: number;
  readonly trouble?: MachineTrouble | undefined;
  /** Missing where there never was one of this sequence. */
  readonly frame?: MachineFrame | undefined;
}

export type ToMachinePage =
  | { readonly is: 'texts'; readonly language: string; readonly texts: MachineTexts }
  | { readonly is: 'view'; readonly view: MachineView };

export type FromMachinePage =
  /** Nothing is shown before that: a page that was hidden begins anew. */
  | { readonly is: 'ready' }
  /** The view that came last can be seen: the next one may come. */
  | { readonly is: 'drawn' }
  | { readonly is: 'sequence'; readonly name: string }
  | { readonly is: 'case'; readonly number: number }
  | { readonly is: 'follow'; readonly on: boolean }
  | { readonly is: 'moment'; readonly moment: number }
  | ({ readonly is: 'move' } & Move)
  /** Leads to the text: of the step, of what moved a part, of the trouble. */
  | { readonly is: 'step' }
  | { readonly is: 'part'; readonly part: string }
  | { readonly is: 'mend' };
