/** What the extension and the language server say to each other besides the protocol's own messages. */

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

/** What the server is told when it is started. */
export interface InitializationOptions {
  /** The client answers `cranknote/read` and `cranknote/find`. */
  readonly files: true;
  /** Where the page of a finding is; `{code}` stands for its code. */
  readonly pages: string;
}
