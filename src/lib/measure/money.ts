/** A sum as it is kept: whole minor units of an ISO 4217 currency, such as cents, as a decimal string. */
export interface Money {
  readonly minor: string;
  readonly currency: string;
}

const CURRENCIES = new Set(Intl.supportedValuesOf('currency'));

/** Digits of the minor unit: ISO 4217, as ECMA-402 (CurrencyDigits) has it. */
function minorDigits(currency: string): number {
  return new Intl.NumberFormat('en', { style: 'currency', currency }).resolvedOptions().maximumFractionDigits ?? 2;
}

/** `85.50 USD` or `USD 85,5`; null for what is no sum, has no currency, or more digits than that currency has. */
export function typedMoney(typed: string): Money | null {
  const found = /^(?:([A-Z]{3})\s*(\d{1,9})(?:[.,](\d{1,3}))?|(\d{1,9})(?:[.,](\d{1,3}))?\s*([A-Z]{3}))$/.exec(typed.trim().toUpperCase());
  if (found === null) return null;
  const [, before, whole = found[4]!, part = found[5] ?? '', , , after] = found;
  const currency = before ?? after!;
  if (!CURRENCIES.has(currency)) return null;
  const digits = minorDigits(currency);
  if (part.length > digits) return null;
  return { minor: BigInt(whole + part.padEnd(digits, '0')).toString(), currency };
}

/** The sum as a decimal string, `85.50`. */
export function moneyDecimal({ minor, currency }: Money): string {
  const digits = minorDigits(currency);
  if (digits === 0) return minor;
  const padded = minor.padStart(digits + 1, '0');
  return `${padded.slice(0, -digits)}.${padded.slice(-digits)}`;
}
