/** The address of a document that shows a trace. */
import { URI } from 'vscode-uri';

/** Of what a trace is wanted: a file's, or one of its sequences' in one case. */
export interface TraceAsked {
  readonly uri: string;
  readonly sequence?: string;
  /** 0 for the defaults. */
  readonly case?: number;
}

/** What stands as JSON behind the question mark of such an address; undefined where that makes no sense. */
export function traceAsked(address: string): TraceAsked | undefined {
  let sent: unknown;
  try {
    sent = JSON.parse(URI.parse(address).query);
  } catch {
    return undefined;
  }
  const { uri, sequence, case: number } = (sent ?? {}) as Record<string, unknown>;
  if (typeof uri !== 'string') return undefined;
  return {
    uri,
    ...(typeof sequence === 'string' && { sequence }),
    ...(typeof number === 'number' && Number.isInteger(number) && { case: number }),
  };
}
