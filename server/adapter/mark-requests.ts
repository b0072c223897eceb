/** Requests that are about marks, brought from the protocol and back. */
import type { DebugProtocol } from '@vscode/debugprotocol';
import type { Reader } from '../service/document.js';
import { onOneLine } from '../service/markdown.js';
import { sourceOf, uriOfPath } from './addresses.js';
import type { Breakpoints, Told } from './breakpoints.js';
import type { Positions } from './positions.js';
import type { Standstill } from './standstill.js';
import { entriesOf } from './variables.js';

export function setBreakpoints(
  marks: Breakpoints,
  { source, breakpoints = [] }: DebugProtocol.SetBreakpointsArguments,
  positions: Positions,
): object {
  const uri = uriOfPath(source.path ?? '') ?? '';
  const wishes = breakpoints.map(({ line, column, condition, hitCondition, logMessage }) => ({
    uri,
    line: positions.line(line),
    ...(column !== undefined && { column: positions.column(column) }),
    ...(condition !== undefined && { condition }),
    ...(hitCondition !== undefined && { hits: hitCondition }),
    ...(logMessage !== undefined && { log: logMessage }),
  }));
  return { breakpoints: marks.set(uri, wishes).map((told) => breakpointOf(told, positions)) };
}

/** Where marks may lie. */
export function breakpointLocations(
  marks: Breakpoints,
  { source, line, endLine }: DebugProtocol.BreakpointLocationsArguments,
  positions: Positions,
): object {
  const uri = uriOfPath(source.path ?? '') ?? '';
  const places = marks.placesIn(uri, positions.line(line), positions.line(endLine ?? line));
  return { breakpoints: places.map((at) => positions.told(at.line, at.column)) };
}

/** Whether the change of a variable can be waited for: that of a register, or of one of its wheels. */
export function dataBreakpointInfo(
  still: Standstill,
  { variablesReference, name }: DebugProtocol.DataBreakpointInfoArguments,
  reader: Reader,
): object {
  const entries = variablesReference === undefined ? [] : entriesOf(still, variablesReference, reader);
  const { part } = entries.find(({ variable }) => variable.name === name) ?? {};
  const { breakpoints, variables } = reader.words.stepping;
  if (part?.is !== 'register' && part?.is !== 'wheel') {
    return { dataId: null, description: breakpoints.noRegister(onOneLine(String(name))) };
  }
  const register = reader.words.readings.registers[part.register];
  return part.is === 'register'
    ? { dataId: part.register, description: register, accessTypes: ['write'] }
    : {
        dataId: `${part.register} ${part.place}`,
        description: `${register}, ${variables.place(part.place)}`,
        accessTypes: ['write'],
      };
}

/** A mark as a client is told of it. */
export function breakpointOf(told: Told, positions: Positions): DebugProtocol.Breakpoint {
  const { id, verified, message, uri, line, column } = told;
  const said = message === undefined ? {} : { message };
  return { id, verified, ...said, source: sourceOf(uri), ...positions.told(line, column) };
}
