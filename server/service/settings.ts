/**
 * The settings, once: what they are called, what they can be, and what they are if nobody says anything.
 *
 * Invariant: no other file spells out a setting; the extension's manifest is made from this table, and a test fails
 * when it is stale.
 */

/** What is shown beside the steps. */
export type Readings = 'off' | 'changed' | 'all';

/** How a hover shows the machine. */
export type HoverFigure = 'drawn' | 'text';

export interface Settings {
  /** Readings beside the steps: none, those that a step has changed, or every register. */
  readonly readings: Readings;
  /** The case whose readings are shown where no lens has chosen one: 0 for the defaults, then 1, 2 … */
  readonly readingsCase: number;
  /** Lines above sequences and machines: case, effort, who uses it. */
  readonly lenses: boolean;
  /** The machine in hovers: as a picture where the client shows one, or in letters and figures. */
  readonly hoverFigure: HoverFigure;
  /** Among the lines above sequences in which somebody looks: how many faults of the machine they would catch. */
  readonly coverage: boolean;
}

export const DEFAULT_SETTINGS: Settings = {
  readings: 'changed',
  readingsCase: 0,
  lenses: true,
  coverage: true,
  hoverFigure: 'drawn',
};

/** How a setting is told to an editor: its name below `cranknote.` and its schema. */
export interface SettingSchema {
  readonly type: 'string' | 'number' | 'boolean';
  readonly enum?: readonly string[];
  readonly minimum?: number;
  readonly maximum?: number;
  readonly default: string | number | boolean;
}

export const SETTINGS = {
  'readings.show': { type: 'string', enum: ['off', 'changed', 'all'], default: 'changed' },
  'readings.case': { type: 'number', minimum: 0, maximum: 999, default: 0 },
  'lenses.show': { type: 'boolean', default: true },
  'lenses.coverage': { type: 'boolean', default: true },
  'hovers.figure': { type: 'string', enum: ['drawn', 'text'], default: 'drawn' },
} as const satisfies Record<string, SettingSchema>;

/** Settings from what a client sends; whatever is missing or makes no sense is as it would be without it. */
export function settingsFrom(sent: unknown): Settings {
  const at = (name: keyof typeof SETTINGS): unknown => {
    const [group, key] = name.split('.');
    const inGroup = field(sent, group);
    return field(inGroup, key);
  };
  const show = at('readings.show');
  const chosen = at('readings.case');
  const lenses = at('lenses.show');
  const coverage = at('lenses.coverage');
  const figure = at('hovers.figure');
  return {
    readings: SETTINGS['readings.show'].enum.find((value) => value === show) ?? DEFAULT_SETTINGS.readings,
    readingsCase:
      typeof chosen === 'number' && Number.isInteger(chosen) && chosen >= 0 ? chosen : DEFAULT_SETTINGS.readingsCase,
    lenses: typeof lenses === 'boolean' ? lenses : DEFAULT_SETTINGS.lenses,
    coverage: typeof coverage === 'boolean' ? coverage : DEFAULT_SETTINGS.coverage,
    hoverFigure: SETTINGS['hovers.figure'].enum.find((value) => value === figure) ?? DEFAULT_SETTINGS.hoverFigure,
  };
}

const field = (value: unknown, key: string): unknown =>
  typeof value === 'object' && value !== null ? (value as Record<string, unknown>)[key] : undefined;
