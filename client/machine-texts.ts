/** What the page that shows the machine says of itself. */
import { l10n } from 'vscode';
import type { MachineTexts } from './machine-messages.js';

export const machineTexts = (): MachineTexts => ({
  panel: l10n.t('The machine beside the text'),
  toolbar: l10n.t('Whose machine is shown'),
  sequence: l10n.t('Sequence'),
  case: l10n.t('Case'),
  follow: l10n.t('Follow the cursor'),
  travel: l10n.t('Going through the run'),
  moment: l10n.t('Moment of the run'),
  start: l10n.t('Start'),
  stepBack: l10n.t('Step back'),
  turnBack: l10n.t('Turn back'),
  turn: l10n.t('Turn'),
  step: l10n.t('Step'),
  end: l10n.t('End'),
  toText: l10n.t('Go to this step in the text'),
  figure: l10n.t('Machine'),
  setting: l10n.t('Setting: where was it set?'),
  result: l10n.t('Result: where was it moved?'),
  counter: l10n.t('Counter: where was it moved?'),
  rest: l10n.t('Carriage and levers: where were they moved?'),
  remarks: l10n.t('What goes wrong'),
  keys: l10n.t('Keys'),
  help: [
    ['← →', l10n.t('a step')],
    ['⇧ ← →', l10n.t('a turn')],
    ['Page ↑ ↓', l10n.t('a line of the text')],
    [l10n.t('Home, End'), l10n.t('start and end of the run')],
    [l10n.t('Tab, ↑ ↓'), l10n.t('to a wheel or lever')],
    [l10n.t('Enter'), l10n.t('to the step that moved it last')],
  ],
});
