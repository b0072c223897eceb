/** The requests of a panel that shows the machine: our own, for whoever shows one. */
import { type CancellationToken, ErrorCodes, ProtocolRequestType, ResponseError } from 'vscode-languageserver';
import type { Desk } from './desk.js';
import type { Origin } from './service/machine/origin.js';
import {
  type MachineAnswer,
  type MachineAsked,
  machineAsked,
  originAsked,
  originOfPart,
  shownMachine,
  type UnderWay,
} from './service/machine.js';
import type { Session } from './session.js';

const MACHINE = new ProtocolRequestType<unknown, MachineAnswer | null, never, void, void>('cranknote/machine');
const MACHINE_ORIGIN = new ProtocolRequestType<unknown, Origin | null, never, void, void>('cranknote/machineOrigin');

export function answerMachine(desk: Desk, session: Session): void {
  const { workspace, steppers } = session;
  /** The session in which somebody goes through a sequence, by the name that the client has for it. */
  const sessionOf = ({ stepping }: MachineAsked): UnderWay | undefined =>
    stepping === undefined ? undefined : steppers.of(stepping);
  desk.on(MACHINE, async (sent, token: CancellationToken) => {
    const asked = sound(machineAsked(sent));
    const shown = await workspace.workedFile(sessionOf(asked)?.uri ?? asked.uri, token, (document) =>
      shownMachine(document, asked, session.reader, sessionOf(asked)),
    );
    return shown ?? null;
  });
  desk.on(MACHINE_ORIGIN, async (sent, token: CancellationToken) => {
    const asked = sound(originAsked(sent));
    const found = await workspace.workedFile(sessionOf(asked)?.uri ?? asked.uri, token, (document) =>
      originOfPart(document, asked, session.reader, sessionOf(asked)),
    );
    return found?.origin ?? null;
  });
}

/** What was asked for, if it makes sense. */
function sound<Asked>(asked: Asked | string): Asked {
  if (typeof asked === 'string') throw new ResponseError(ErrorCodes.InvalidParams, asked);
  return asked;
}
