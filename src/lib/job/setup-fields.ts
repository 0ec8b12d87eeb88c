import { readLength, type LengthTextFault } from '../measure/length-text.ts';
import { lengthNm, typedDecimal } from '../measure/quantity.ts';
import type { Quantity } from '../record/kinds/reading.ts';
import type { ShapeFaultCode } from './drawing/shape.ts';

/** Why a field of the set-up cannot stand as it is. */
export type SetupFaultCode =
  | 'empty'
  | 'too-long'
  | 'no-surface'
  | 'no-length'
  | 'same-name'
  | 'not-a-length'
  | 'no-unit'
  | 'not-a-value'
  | 'max-below-min'
  | 'no-value'
  | 'no-source'
  | 'no-scale'
  | 'too-large'
  | 'not-a-day'
  | 'day-in-doubt'
  | 'not-a-count'
  | 'left-over-opened'
  | 'no-file'
  | 'no-step'
  | 'no-place'
  | 'none-chosen'
  | 'not-a-turn'
  | 'gap-open'
  | Exclude<ShapeFaultCode, 'not-closed'>;

/** A field and its fault. `field` is `name`, `surfaces.0.name`, `limits.1.min` ... */
export interface SetupFault {
  readonly field: string;
  readonly code: SetupFaultCode;
}

export const NAME_MAX = 200;
export const WORDS_MAX = 2_000;
/** Longer than any wall of a bathroom; common sense, no source: it catches a slip of the unit. */
const SIZE_MAX_NM = 30_000_000_000;
/** More packages of one lot than a job takes; common sense, no source. */
const PACKAGES_MAX = 10_000;

/** Text without the blanks around it, nor half a character (as left by a cut emoji), which could not be sealed. */
export function typedText(text: string): string {
  return text.trim().toWellFormed();
}

/** Reads the fields of one form and gathers what is wrong with them, so that all of it is said at once. */
export class FieldReader {
  readonly faults: SetupFault[] = [];

  fault(field: string, code: SetupFaultCode): void {
    this.faults.push({ field, code });
  }

  /** Text that names something, and so may not be empty. */
  name(field: string, text: string): string {
    const name = typedText(text);
    if (name === '') this.fault(field, 'empty');
    else if (name.length > NAME_MAX) this.fault(field, 'too-long');
    return name;
  }

  /** Text that may be empty. */
  words(field: string, text: string, most: number = WORDS_MAX): string {
    const words = typedText(text);
    if (words.length > most) this.fault(field, 'too-long');
    return words;
  }

  /** A size as the trade writes it, text kept; null where none was typed or it cannot stand. */
  size(field: string, text: string): Quantity | null {
    if (text.trim() === '') return null;
    const read = readLength(text);
    if (!read.ok) {
      this.fault(field, SIZE_FAULT[read.fault]);
      return null;
    }
    const nm = lengthNm(read.value.value, read.value.unit);
    if (nm.ok && nm.value > 0 && nm.value <= SIZE_MAX_NM) return { text: typedText(text), ...read.value };
    this.fault(field, nm.ok && nm.value === 0 ? 'not-a-length' : 'too-large');
    return null;
  }

  /** A number of packages, parts of one too; null where none was typed or it cannot stand. */
  count(field: string, text: string): string | null {
    if (text.trim() === '') return null;
    const count = typedDecimal(text);
    if (count !== null && Number(count) <= PACKAGES_MAX) return count;
    this.fault(field, count === null ? 'not-a-count' : 'too-large');
    return null;
  }

  /** Names that are not to be the same: those that look alike in the room count as one. */
  apart(names: readonly (readonly [field: string, name: string])[]): void {
    const seen = new Set<string>();
    for (const [field, name] of names) {
      const alike = lookOf(name);
      if (alike !== '' && seen.has(alike)) this.fault(field, 'same-name');
      seen.add(alike);
    }
  }
}

const SIZE_FAULT: Readonly<Record<LengthTextFault, SetupFaultCode>> = { 'not-a-length': 'not-a-length', 'no-unit': 'no-unit' };

/** Two ways to type ñ, or upper and lower case, look alike. */
export function lookOf(name: string): string {
  return typedText(name).normalize().toLowerCase();
}
