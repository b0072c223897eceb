/** What a session can do, as a client is told. */
import type { DebugProtocol } from '@vscode/debugprotocol';
import { SEVERITIES } from '../sequence/findings.js';
import type { Reader } from '../service/document.js';

export function abilities({ words }: Reader): DebugProtocol.Capabilities {
  const { filters, filterHelp } = words.stepping;
  return {
    supportsConfigurationDoneRequest: true,
    supportsConditionalBreakpoints: true,
    supportsHitConditionalBreakpoints: true,
    supportsLogPoints: true,
    supportsBreakpointLocationsRequest: true,
    supportsDataBreakpoints: true,
    supportsEvaluateForHovers: true,
    supportsExceptionInfoRequest: true,
    supportsSetVariable: true,
    supportsStepBack: true,
    supportsSteppingGranularity: true,
    supportsTerminateRequest: true,
    exceptionBreakpointFilters: SEVERITIES.map((level) => ({
      filter: level,
      label: filters[level],
      description: filterHelp,
      default: level === 'error',
    })),
  };
}
