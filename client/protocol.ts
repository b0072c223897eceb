/** What the extension and the language server say to each other besides the protocol's own messages. */
import type { Range } from 'vscode-languageclient';

/**
 * Readings as a document: a file's, or those of one sequence in one case. The address of such a document has what is
 * traced as JSON behind the question mark; the server gives the text (`workspace/textDocumentContent`).
 */
export const TRACE_SCHEME = 'cranknote-trace';
export interface TraceQuery {
  readonly uri: string;
  readonly sequence?: string;
  /** 0 for the defaults. */
  readonly case?: number;
}

/** Server to client: the text of a file that the server has not been given, such as one that another file uses. */
export const READ = 'cranknote/read';
export interface ReadParams {
  readonly uri: string;
}
export type ReadResult =
  | { readonly text: string }
  | { readonly problem: 'missing' | 'folder' | 'unreadable' | 'too-large' | 'not-text' };

/** Server to client: the addresses of all files of the workspace that may hold the notation. */
export const FIND = 'cranknote/find';
export interface FindResult {
  readonly uris: readonly string[];
}

/** The command that the server offers, with address, sequence and case: whose readings are to be shown. */
export const CHOOSE_CASE = 'cranknote.server.chooseCase';

/**
 * Client to server: a sheet of a sequence, as it stands in the editor, or why there is none. `null` where the document
 * can't be read.
 */
export const SHEET = 'cranknote/sheet';

/** A place in a text. */
export interface Place {
  readonly uri: string;
  readonly range: Range;
}
/** A sequence and the lines that it takes. */
export interface SequenceOutline {
  readonly name: string;
  readonly title: string;
  readonly range: Range;
}

/** How a sheet is made. What they may be is told with each answer; what is left out is as on the command line. */
export interface SheetChoices {
  readonly kind?: string;
  /** As it comes, that of the editor. */
  readonly language?: string;
  readonly paper?: string;
  readonly figures?: string;
}
export interface SheetParams extends SheetChoices {
  readonly uri: string;
  /** The sequence by its name, or else by a line that belongs to it, counted from 0; the first where there is neither. */
  readonly sequence?: string;
  readonly line?: number;
  /** `html` (as it comes) or `markdown`. */
  readonly format?: string;
}
export interface SheetAnswer {
  /** What the sheet is of; missing where there is no such sequence. */
  readonly sequence?: string;
  /** All sequences of the document. */
  readonly sequences: readonly SequenceOutline[];
  /** As it was made. */
  readonly choices: Required<SheetChoices> & { readonly format: string };
  /** All that may be chosen, and what it is called in the editor's language. */
  readonly offers: Readonly<Record<keyof SheetChoices, readonly Offer[]>>;
  readonly sheet?: { readonly title: string; readonly content: string };
  /** Why there is none, in the editor's language, and where that can be mended. */
  readonly refused?: { readonly message: string; readonly at?: Place };
}
export interface Offer {
  readonly value: string;
  readonly label: string;
}

/** Client to server: what of a file can pass or fail. Null where it has nothing to do with the notation, or is gone. */
export const TESTS = 'cranknote/tests';
export interface TestsParams {
  readonly textDocument: { readonly uri: string };
}
export interface TestTree {
  readonly tests: readonly TestEntry[];
  /** Other files on which it rests. */
  readonly uses: readonly string[];
  /** Why it can't be read. */
  readonly problem?: string;
}
export interface TestEntry {
  /** Unlike that of any other entry of the file. */
  readonly id: string;
  readonly label: string;
  readonly description?: string;
  readonly sequence: string;
  /** 0 for the defaults. */
  readonly case: number;
  readonly range: Range;
  readonly children: readonly TestEntry[];
}

/** Client to server: what passes. Null where there is no such file. */
export const RUN_TESTS = 'cranknote/runTests';
export interface RunTestsParams {
  readonly uri: string;
  /** Those that are wanted; all where nothing is said. An empty name means the text itself, outside of sequences. */
  readonly ids?: readonly string[];
  /** What is known already, by name: it is left out of the answer if it is still the same. */
  readonly known?: Readonly<Record<string, string>>;
}
export interface RunTestsResult {
  readonly results: readonly TestResult[];
}
export interface TestResult {
  readonly id: string;
  readonly outcome: 'passed' | 'failed' | 'not-run';
  readonly messages: readonly TestMessage[];
  readonly resultId: string;
}
export interface TestMessage {
  readonly message: string;
  readonly uri: string;
  readonly range: Range;
  readonly expected?: string;
  readonly actual?: string;
  readonly related?: readonly { readonly message: string; readonly uri: string; readonly range: Range }[];
}

/** Client to server: how a machine stands at a moment of a run. `null` where the document can't be read. */
export const MACHINE = 'cranknote/machine';

/** A way through the moments of a run, so many times; less than 0 is back. */
export interface Move {
  readonly by: 'step' | 'turn' | 'line';
  readonly count: number;
}
export interface MachineParams {
  readonly uri: string;
  /** The sequence by its name, or else by a line that belongs to it, counted from 0; the first where there is neither. */
  readonly sequence?: string;
  readonly line?: number;
  /** The column of the cursor on that line: what is wanted is the moment after the step there. */
  readonly character?: number;
  /** 0 for the defaults; as it comes, the case whose readings are shown. */
  readonly case?: number;
  /** The moment that is wanted; where there is a cursor, that which was shown before. */
  readonly moment?: number;
  /** Where to go from there, 100 moves at the most. */
  readonly moves?: readonly Move[];
  /** A session of the debugger: where it stands, where no moment is named; of whatever document it is. */
  readonly stepping?: string;
}
export interface MachineAnswer {
  /** The document. */
  readonly uri: string;
  /** It is that of the session that was asked for. */
  readonly isStepping?: true;
  readonly sequence?: string;
  readonly sequences: readonly SequenceOutline[];
  /** What the cases are called, the defaults first, and which is shown. */
  readonly cases: readonly string[];
  readonly case: number;
  /** Missing where the sequence can't be run. */
  readonly frame?: MachineFrame;
  /** Why there is none, or what of the text it leaves out. */
  readonly trouble?: { readonly message: string; readonly at?: Place };
}
/** Texts are in the editor's language. */
export interface MachineFrame {
  /** From 0; there are `moments`. */
  readonly moment: number;
  readonly moments: number;
  /** How many steps have been begun. */
  readonly steps: number;
  /** The step that was carried out last; missing before the first. */
  readonly step?: { readonly text: string; readonly sentence: string; readonly at: Place };
  /** Which step of how many, which round and turn. */
  readonly where: string;
  readonly effort: string;
  /** What has changed since the moment before. */
  readonly changed: string;
  /** What will be wrong with the next step, and what is wrong now. */
  readonly remarks: readonly MachineRemark[];
  readonly figure: MachineFigure;
}
export interface MachineRemark {
  readonly level: 'error' | 'warning' | 'information' | 'hint';
  readonly when: string;
  readonly message: string;
  /** Where it is marked in the figure, in words. */
  readonly marked?: string;
}
/** The machine drawn: an `svg` element with its text alternative. Boxes are in the units of the drawing. */
export interface MachineFigure {
  readonly svg: string;
  readonly width: number;
  readonly height: number;
  /** Where the carriage begins. */
  readonly carriageAt: number;
  readonly parts: readonly MachinePart[];
}
export interface MachinePart {
  readonly part: string;
  /** What it is and shows. */
  readonly label: string;
  readonly box: { readonly x: number; readonly y: number; readonly width: number; readonly height: number };
}

/** Client to server: where it is written that a part stands as it does at a moment. `null` where that can't be told. */
export const MACHINE_ORIGIN = 'cranknote/machineOrigin';
export interface OriginParams extends MachineParams {
  readonly part: string;
}
export interface OriginAnswer extends Place {
  /** The moment at which it came to stand so; missing where no step has moved it. */
  readonly moment?: number;
}

/** Client to server: a file to begin with, or only what there is to choose. What makes no sense is an error that says why. */
export const STARTER = 'cranknote/starter';
export interface StarterParams {
  readonly machine?: string;
  readonly task?: string;
  /** As it comes, that of the editor. */
  readonly language?: string;
}
export interface StarterAnswer {
  /** Kinds of machines, with the tasks that each can do. */
  readonly machines: readonly (StarterOffer & { readonly tasks: readonly string[] })[];
  readonly tasks: readonly StarterOffer[];
  /** Where both were chosen: a whole file, and the name of its sequence. */
  readonly file?: { readonly name: string; readonly text: string };
}
export interface StarterOffer extends Offer {
  readonly detail: string;
}

/** How the theme looks: pictures in hovers have ink and ground that go with it. */
export type Look = 'light' | 'dark' | 'high-contrast-light' | 'high-contrast-dark';

/** Client to server: another theme was chosen. */
export const LOOK = 'cranknote/look';
export interface LookParams {
  readonly look: Look;
}

/** Client to server: what is to be seen below each `crank` fence of a Markdown page in a preview. */
export const FENCES = 'cranknote/fences';
export interface FencesParams {
  readonly textDocument: { readonly uri: string };
  /** That of the answer before: of what is in both, only the place there is told. */
  readonly previousResultId?: string;
}
/** Null where the page is not open. */
export type FencesResult = {
  readonly resultId: string;
  readonly fences: readonly ({ readonly content: string } & ({ readonly html: string } | { readonly same: number }))[];
} | null;

/** Server to client: what stands in fences may be another thing, though their text is not. */
export const REFRESH_FENCES = 'cranknote/refreshFences';

/** A message of the debug protocol, and the session that it belongs to, as the client calls it. */
export interface StepParams {
  readonly session: string;
  readonly message: object;
}
/** Client to server, and server to client. */
export const STEP = 'cranknote/step';
export const STEPPED = 'cranknote/stepped';
/** Client to server: nobody listens to a session any more. */
export const STEP_END = 'cranknote/stepEnd';

/** Client to server: which sequences of a document there are to step through. Null where it can't be read. */
export const STEPPABLE = 'cranknote/steppable';
export interface SteppableParams {
  readonly uri: string;
  /** Counted from 0: which sequence it belongs to is told as well. */
  readonly line?: number;
}
export type SteppableResult = {
  readonly sequences: readonly {
    readonly name: string;
    readonly title: string;
    readonly range: Range;
    /** The defaults first; none where the sequence can't be run. */
    readonly cases: readonly { readonly number: number; readonly label: string }[];
  }[];
  readonly at?: string;
} | null;

/** Client to server: the faults that a sequence's machine can have, by its parts. Null where it can't be run. */
export const FAULTS = 'cranknote/faults';
export interface FaultsParams {
  readonly uri: string;
  readonly sequence: string;
}
export type FaultsResult =
  | readonly {
      readonly part: string;
      readonly label: string;
      readonly faults: readonly { readonly value: string; readonly label: string }[];
    }[]
  | null;

/** What the server is told when it is started. */
export interface InitializationOptions {
  /** The client answers `cranknote/read` and `cranknote/find`. */
  readonly files: true;
  /** Where the page of a finding is; `{code}` stands for its code. */
  readonly pages: string;
  /** Pictures in hovers are shown. */
  readonly look: Look;
  /** `cranknote/refreshFences` is heard. */
  readonly preview: true;
}
