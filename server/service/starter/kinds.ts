/**
 * Kinds of machines that a file may begin with, as lines of the notation. They are those of the sample library; what
 * they are called, in any language, is in wording/.
 */
export const MACHINE_KINDS = {
  pinwheel: ['setting 9', 'counter 8', 'result 13', 'carriage 8', 'subtract reverse', 'bell', 'transfer result at 1'],
  'lifted-crank': ['setting 8', 'counter 6 plain', 'result 12 dials', 'carriage 6', 'subtract lift', 'count first'],
  'drive-lever': [
    'setting 12',
    'counter 10',
    'result 20 dials',
    'carriage 10',
    'subtract lever',
    'count lever',
    'transfer result',
    'transfer counter',
    'effort turn 1 shift 2 lever 2',
  ],
  'half-step': [
    'setting 10',
    'counter 8',
    'result 16',
    'carriage 8',
    'subtract half-step',
    'count lever',
    'park left',
    'bell',
    'auto-clear',
    'auto-divide',
  ],
  learner: ['setting 8', 'counter 7 plain', 'result 12', 'carriage 7', 'subtract reverse', 'bell'],
  'marked-counter': ['setting 9', 'counter 8 signed', 'result 14', 'carriage 8', 'subtract reverse'],
  'short-carry': ['setting 8', 'counter 8', 'result 15 reach 10', 'carriage 8', 'subtract reverse'],
  adding: ['setting 9', 'result 9', 'carriage 1', 'subtract none', 'auto-clear'],
} as const satisfies Readonly<Record<string, readonly string[]>>;

export type MachineKind = keyof typeof MACHINE_KINDS;
export const MACHINE_KIND_NAMES = Object.keys(MACHINE_KINDS) as MachineKind[];
