/** What a client may say of what it wants to go through. */
import type { DebugProtocol } from '@vscode/debugprotocol';
import type { Wanted } from './course.js';

/** Nothing of it is sure to be what it should. */
export interface LaunchArguments extends DebugProtocol.LaunchRequestArguments {
  readonly program?: unknown;
  readonly sequence?: unknown;
  readonly line?: unknown;
  readonly case?: unknown;
  readonly fault?: unknown;
  readonly stopOnEntry?: unknown;
  readonly language?: unknown;
}

export const wantedFrom = (uri: string, { sequence, line, case: number, fault }: LaunchArguments): Wanted => ({
  uri,
  ...(typeof sequence === 'string' && sequence !== '' && { sequence }),
  ...(typeof line === 'number' && { line }),
  case: typeof number === 'number' && Number.isInteger(number) ? number : 0,
  ...(typeof fault === 'string' && fault.trim() !== '' && { fault }),
});
