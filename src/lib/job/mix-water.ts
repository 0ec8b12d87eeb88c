import { baseOf } from '../measure/dimension.ts';
import type { Unit } from '../record/kinds/reading.ts';
import { typedAmount, type Typed } from './form-drafts.ts';
import { fieldsOf } from './forms.ts';

/**
 * Water as a share of its powder by weight that a mortar or a cement slurry may take: a bag of 50 lb takes about 6 qt, a quarter of its
 * weight. Wide, so that only a slip of the finger or of the unit falls outside. Common practice, no source; the data sheet governs.
 */
const PLAUSIBLE = { least: 0.1, most: 0.6 };

/** How wet a batch would be: water as a share of the powder, by weight. */
export interface MixedWater {
  readonly share: number;
  /** Whether it is to be asked if that is meant. */
  readonly doubt: 'much' | 'little' | null;
}

/** The water of a batch as it is typed, or null while powder or water is missing or no amount. `unitsSaid`: units that stand already, by field. */
export function mixedWater(typed: Typed, units: 'in' | 'mm', unitsSaid: Readonly<Record<string, Unit>> = {}): MixedWater | null {
  const weight = (name: 'powder' | 'water') => {
    const field = new Map(fieldsOf('mix')).get(name);
    if (field?.type !== 'amount') return null;
    const read = typedAmount(String(typed[name] ?? ''), field.of, unitsSaid[name] ?? field.of[units]);
    const base = read.ok ? baseOf(read.value.value, read.value.unit) : read;
    return base.ok ? base.value : null;
  };
  // 1 L of water weighs 1 kg: the base unit of its volume is that of a mass.
  const [powder, water] = [weight('powder'), weight('water')];
  if (powder === null || water === null) return null;
  const share = water / powder;
  return { share, doubt: share > PLAUSIBLE.most ? 'much' : share < PLAUSIBLE.least ? 'little' : null };
}
