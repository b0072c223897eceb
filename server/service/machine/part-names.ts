/** What the parts of a figure are called, for whoever points at them or does not see them. */
import { POSITION, pointOf, REGISTERS, type Register } from '../../machine/index.js';
import { devicesOf, type PartName, registersOf, shownOf } from '../../sheets/figure/index.js';
import type { FigureData } from '../../sheets/model.js';
import { rangesOf } from '../../sheets/wording/figure-en.js';
import type { SheetWords } from '../../sheets/wording/index.js';
import type { Reader } from '../document.js';
import { MINUS, positionText } from '../readings.js';

export class PartNames {
  private readonly names = new Map<PartName, string>();
  private readonly devices = new Map<PartName, string>();

  constructor(
    data: FigureData,
    sheet: SheetWords,
    private readonly reader: Reader,
  ) {
    const { words } = reader;
    const { parts } = words.machine;
    const { profile, after } = data;
    for (const register of registersOf(profile)) {
      for (const { place, figure, isNegative } of shownOf(data, register)) {
        this.names.set(`${register}-${place}`, parts.wheel(register, place, (isNegative ? MINUS : '') + figure));
      }
      const decimals = pointOf(after, register);
      if (decimals > 0) this.names.set(`marker-${register}`, parts.marker(register, decimals));
    }
    this.names.set('carriage', parts.carriage(positionText(after[POSITION], words)));
    for (const { is, name, now } of devicesOf(data, sheet)) {
      this.names.set(is, parts.device(name, now));
      this.devices.set(is, name);
    }
    if (data.rang) this.names.set('bell', parts.bell);
  }

  nameOf(part: PartName): string {
    return this.names.get(part) ?? part;
  }

  /** Several parts that are drawn, in few words: `result 1–3, 5; carriage`. Nothing where none of them is. */
  placesOf(parts: readonly PartName[]): string {
    const { machine } = this.reader.words;
    const drawn = parts.filter((part) => this.names.has(part));
    const wheels = REGISTERS.flatMap((register) => {
      const places = drawn.flatMap((part) => placeIn(part, register)).sort((a, b) => a - b);
      const ranges = rangesOf([...new Set(places)]).map(([from, to]) => (from === to ? `${from}` : `${from}–${to}`));
      return ranges.length > 0 ? [`${machine.registers[register]} ${ranges.join(', ')}`] : [];
    });
    const others = drawn.flatMap((part) => {
      if (part === 'carriage') return [machine.carriage];
      if (part.startsWith('marker-')) return [machine.marker(part.slice(7) as Register)];
      return this.devices.get(part) ?? [];
    });
    return [...wheels, ...new Set(others)].join('; ');
  }
}

/** The place of a wheel of a register; none of another part. */
function placeIn(part: PartName, register: Register): number[] {
  const place = part.startsWith(`${register}-`) ? Number(part.slice(register.length + 1)) : Number.NaN;
  return Number.isInteger(place) ? [place] : [];
}
