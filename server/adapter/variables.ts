/** What a machine that stands still shows, as variables: every register with its wheels, levers, markers, numbers. */
import type { DebugProtocol } from '@vscode/debugprotocol';
import {
  AUTO_CLEAR,
  AUTO_DIVIDE,
  COUNT_MINUS,
  figuresIn,
  has,
  hasDriveLever,
  POSITION,
  pointOf,
  type Register,
  SUBTRACTING,
  textOf,
  WRAPS,
} from '../machine/index.js';
import { provingWording } from '../proving/wording/index.js';
import type { Reader } from '../service/document.js';
import { registersOf } from '../service/readings.js';
import type { Part } from '../stepping/by-hand.js';
import type { Standstill } from './standstill.js';
import { registerText } from './told.js';

const GROUPS = ['registers', 'carriage', 'markers', 'numbers', 'run', 'setting', 'counter', 'result'] as const;
type Group = (typeof GROUPS)[number];

/** A variable, and what it is of the machine, where a hand may move that or its change can be waited for. */
export interface Entry {
  readonly variable: DebugProtocol.Variable;
  readonly part?: Part;
  /** What the places of a lever are called; of the carriage, the one out of gear. */
  readonly places?: readonly [string, string];
}

/** References hold until the session moves on: those of a frame are numbered by its place in the stack. */
const reference = (frame: number, group: Group): number => 1 + frame * GROUPS.length + GROUPS.indexOf(group);

/** The reference to the wheels of a register. */
export const wheelsReference = (register: Register): number => reference(0, register);

export function scopesOf(still: Standstill, frame: number, { words }: Reader): DebugProtocol.Scope[] {
  const { scopes } = words.stepping;
  const shown = (['registers', 'carriage', 'markers', 'numbers', 'run'] as const).filter(
    (group) => group !== 'numbers' || still.scene(frame).values.size > 0,
  );
  return shown.map((group) => ({
    name: scopes[group],
    variablesReference: reference(frame, group),
    expensive: false,
    ...(group === 'registers' && { presentationHint: 'registers' }),
    ...(group === 'numbers' && { presentationHint: 'arguments' }),
  }));
}

/** What stands behind a reference; nothing behind one that is none. */
export function entriesOf(still: Standstill, to: number, reader: Reader): Entry[] {
  if (!Number.isInteger(to) || to < 1) return [];
  const frame = Math.floor((to - 1) / GROUPS.length);
  const group = GROUPS[(to - 1) % GROUPS.length];
  switch (group) {
    case 'registers':
      return registersOf(still.course.errand.order.profile).map((register) => registerEntry(still, register, reader));
    case 'carriage':
      return carriageEntries(still, reader);
    case 'markers':
      return markerEntries(still, reader);
    case 'numbers':
      return [...still.scene(frame).values].map(([name, { text }]) => shown(name, text, { evaluateName: name }));
    case 'run':
      return runEntries(still, reader);
    default:
      return wheelEntries(still, group, reader);
  }
}

const shown = (name: string, value: string, more: Partial<DebugProtocol.Variable> = {}): Entry => ({
  variable: { name, value, variablesReference: 0, presentationHint: { attributes: ['readOnly'] }, ...more },
});

const moved = (
  part: Part,
  name: string,
  value: string,
  more: Partial<DebugProtocol.Variable> = {},
  places?: readonly [string, string],
): Entry => ({ variable: { name, value, variablesReference: 0, ...more }, part, ...(places && { places }) });

function registerEntry(still: Standstill, register: Register, { words }: Reader): Entry {
  const scene = still.scene();
  return moved({ is: 'register', register }, words.readings.registers[register], registerText(scene, register), {
    evaluateName: register,
    variablesReference: wheelsReference(register),
    namedVariables: scene.profile[register],
  });
}

/** The highest place first, as the wheels stand. */
function wheelEntries(still: Standstill, register: Register, { words }: Reader): Entry[] {
  const { state, profile } = still.scene();
  const figures = figuresIn(textOf(state, profile, register));
  return figures.map((figure, i) => {
    const place = figures.length - i;
    const name = words.stepping.variables.place(place);
    return moved({ is: 'wheel', register, place }, name, figure, { evaluateName: `${register} at ${place}` });
  });
}

function carriageEntries({ state, course }: Standstill, { words }: Reader): Entry[] {
  const { profile } = course.errand.order;
  const { variables } = words.stepping;
  const position = state[POSITION] === 0 ? variables.outOfGear : String(state[POSITION]);
  const lever = (is: keyof typeof variables.places, bit: number): Entry => {
    const places = variables.places[is];
    return moved({ is }, variables[is], places[has(state, bit) ? 1 : 0], {}, places);
  };
  return [
    moved({ is: 'position' }, variables.position, position, { evaluateName: 'position' }, [variables.outOfGear, '']),
    ...(hasDriveLever(profile) ? [lever('drive', SUBTRACTING)] : []),
    ...(profile.count === 'lever' ? [lever('count', COUNT_MINUS)] : []),
    ...(profile.autoClear ? [lever('auto-clear', AUTO_CLEAR)] : []),
    ...(profile.autoDivide ? [lever('auto-divide', AUTO_DIVIDE)] : []),
  ];
}

function markerEntries({ state, course }: Standstill, { words }: Reader): Entry[] {
  return registersOf(course.errand.order.profile).map((register) =>
    moved({ is: 'marker', register }, words.readings.registers[register], String(pointOf(state, register))),
  );
}

function runEntries(still: Standstill, { words, locale }: Reader): Entry[] {
  const { variables } = words.stepping;
  const { state, effort, steps, course } = still;
  const { fault, profile } = course.errand.order;
  return [
    shown(variables.wraps, String(state[WRAPS]), { evaluateName: 'wraps' }),
    ...(profile.bell ? [shown(variables.bell, still.rang ? variables.rang : variables.silent)] : []),
    shown(variables.step, variables.stepOf(steps.done, steps.all)),
    shown(variables.turns, String(effort.turns)),
    shown(variables.shifts, String(effort.shifts)),
    shown(variables.levers, String(effort.levers)),
    shown(variables.cost, String(effort.cost)),
    ...(fault ? [shown(variables.fault, provingWording(locale).faultSentence(fault))] : []),
  ];
}
