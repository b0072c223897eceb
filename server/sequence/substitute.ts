/** Numbers in place of parameters: the step as it is carried out. */
import type { Argument, ExpectItem, NumberSyntax, Part, StepSyntax } from '../../grammar/tree.js';

/** The values of the parameters in force. */
export type Values = ReadonlyMap<string, NumberSyntax>;

/** The same step with every known parameter replaced; the very same object where it has none. */
export function substitute(step: StepSyntax, values: Values): StepSyntax {
  const value = (argument: Argument): Argument =>
    argument.kind === 'number' ? argument : (values.get(argument.name) ?? argument);
  const part = ({ figures, at }: Part): Part => ({ figures: value(figures), ...(at && { at: value(at) }) });
  if (!argumentsOf(step).some((argument) => argument.kind === 'name')) return step;
  switch (step.kind) {
    case 'set':
      return { ...step, parts: step.parts.map(part) };
    case 'dial':
      return { ...step, part: part(step.part) };
    case 'turn':
    case 'shift':
      return step.count ? { ...step, count: value(step.count) } : step;
    case 'points':
      return { ...step, items: step.items.map((item) => ({ ...item, decimals: value(item.decimals) })) };
    case 'expect':
      return { ...step, items: step.items.map((item) => withValue(item, value)) };
    case 'repeat':
      return { ...step, count: value(step.count) };
    case 'run':
      return { ...step, args: step.args.map(value) };
    case 'multiply':
      return { ...step, by: value(step.by) };
    case 'divide':
      return step.downTo ? { ...step, downTo: value(step.downTo) } : step;
    default:
      return step;
  }
}

function withValue(item: ExpectItem, value: (argument: Argument) => Argument): ExpectItem {
  if (item.kind === 'register') return { ...item, figures: value(item.figures) };
  if (item.kind === 'carriage') return { ...item, position: value(item.position) };
  return item;
}

/** Every number or parameter of a step, in the order in which it is written. */
export function argumentsOf(step: StepSyntax): readonly Argument[] {
  switch (step.kind) {
    case 'set':
      return step.parts.flatMap(argumentsOfPart);
    case 'dial':
      return argumentsOfPart(step.part);
    case 'turn':
    case 'shift':
      return step.count ? [step.count] : NONE;
    case 'points':
      return step.items.map((item) => item.decimals);
    case 'expect':
      return step.items.flatMap((item): readonly Argument[] =>
        item.kind === 'register' ? [item.figures] : item.kind === 'carriage' ? [item.position] : NONE,
      );
    case 'repeat':
      return [step.count];
    case 'run':
      return step.args;
    case 'multiply':
      return [step.by];
    case 'divide':
      return step.downTo ? [step.downTo] : NONE;
    default:
      return NONE;
  }
}

const NONE: readonly never[] = [];
const argumentsOfPart = (part: Part): Argument[] => (part.at ? [part.figures, part.at] : [part.figures]);
