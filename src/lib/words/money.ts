import { moneyDecimal, type Money } from '../measure/money.ts';

/** A sum with its currency's code, which is the same in every language: `85.50 USD`, `85,50 USD`. */
export function moneyText(sum: Money, locale: 'en' | 'es'): string {
  const decimal = moneyDecimal(sum);
  return `${locale === 'es' ? decimal.replace('.', ',') : decimal} ${sum.currency}`;
}
