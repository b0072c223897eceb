/** What the extension and the language server say to each other besides the protocol's own messages. */

/** Client to server: the readings of a file, or of one sequence in one case, as text. */
export const TRACE = 'cranknote/trace';
export interface TraceParams {
  readonly uri: string;
  readonly sequence?: string;
  /** 0 for the defaults. */
  readonly case?: number;
}
export interface TraceText {
  readonly text: string;
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

/** What the server is told when it is started. */
export interface InitializationOptions {
  /** The client answers `cranknote/read` and `cranknote/find`. */
  readonly files: true;
  /** Where the page of a finding is; `{code}` stands for its code. */
  readonly pages: string;
}
