/** What a door hands to the server: everything that depends on where it runs. */
import type { Clock } from './service/patience.js';
import type { Files } from './service/workspace.js';

export interface Runtime extends Clock {
  /** The version that is told to clients. */
  readonly version: string;
  /** The door's own access to files. A client that offers to read for the server is asked instead. */
  readonly files?: (folders: () => readonly string[]) => Files;
  /** Where the pages of findings are, `{code}` standing for the code, where the client has none of its own. */
  readonly pages?: string;
}
