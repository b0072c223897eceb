/** The names that can be seen from a file: its own, and those of all files that it uses. */
import type { CrankFile, MachineSection, SequenceSection } from '../../grammar/tree.js';

/**
 * What a file declares; of two with one name the first counts. The library puts another sequence in the place of one
 * whose body alone has changed.
 */
export interface Declarations {
  readonly machines: ReadonlyMap<string, MachineSection>;
  readonly sequences: Map<string, SequenceSection>;
}

export function declarationsOf(tree: CrankFile): Declarations {
  const machines = new Map<string, MachineSection>();
  const sequences = new Map<string, SequenceSection>();
  for (const { section } of tree.sections) {
    const name = section.header && 'name' in section.header ? section.header.name.name : undefined;
    if (name === undefined) continue;
    if (section.kind === 'machine' && !machines.has(name)) machines.set(name, section);
    if (section.kind === 'sequence' && !sequences.has(name)) sequences.set(name, section);
  }
  return { machines, sequences };
}

export class Scope {
  private only: MachineSection | null | undefined;

  /** Of the file itself first, then of the files that it uses. */
  constructor(private readonly declared: readonly Declarations[]) {}

  machine(name: string): MachineSection | undefined {
    for (const { machines } of this.declared) if (machines.has(name)) return machines.get(name);
    return undefined;
  }
  sequence(name: string): SequenceSection | undefined {
    for (const { sequences } of this.declared) if (sequences.has(name)) return sequences.get(name);
    return undefined;
  }
  /** Whether a file other than the first declares it too. */
  isElsewhere(kind: 'machine' | 'sequence', name: string): boolean {
    return this.declared.some((d, i) => i > 0 && (kind === 'machine' ? d.machines : d.sequences).has(name));
  }
  machineNames(): string[] {
    return this.declared.flatMap(({ machines }) => [...machines.keys()]);
  }
  sequenceNames(): string[] {
    return this.declared.flatMap(({ sequences }) => [...sequences.keys()]);
  }

  /** The machine that a sequence names, or the only one there is. */
  machineOf(sequence: SequenceSection): MachineSection | undefined {
    const on = sequence.header?.on;
    return on ? this.machine(on.name) : this.onlyMachine();
  }

  private onlyMachine(): MachineSection | undefined {
    if (this.only === undefined) {
      const names = this.machineNames();
      this.only = (names.length === 1 ? this.machine(names[0]) : undefined) ?? null;
    }
    return this.only ?? undefined;
  }
}
