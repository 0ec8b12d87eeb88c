import { moneyDecimal, typedMoney } from '#lib/measure/money.ts';
import { expect, test } from 'vitest';

// Minor units by ISO 4217: two for USD and EUR, none for JPY and CLP, three for KWD.
test.each([
  ['85.50 USD', '8550', 'USD', '85.50'],
  ['USD 85,5', '8550', 'USD', '85.50'],
  ['85,5usd', '8550', 'USD', '85.50'],
  ['eur12', '1200', 'EUR', '12.00'],
  ['  1200   EUR ', '120000', 'EUR', '1200.00'],
  ['EUR   1200', '120000', 'EUR', '1200.00'],
  ['0.05 USD', '5', 'USD', '0.05'],
  ['0 USD', '0', 'USD', '0.00'],
  ['USD 7.25', '725', 'USD', '7.25'],
  ['1200 JPY', '1200', 'JPY', '1200'],
  ['CLP 35000', '35000', 'CLP', '35000'],
  ['1.234 KWD', '1234', 'KWD', '1.234'],
  ['KWD 0.004', '4', 'KWD', '0.004'],
  ['999999999.99 USD', '99999999999', 'USD', '999999999.99'],
  ['USD 123456789', '12345678900', 'USD', '123456789.00'],
])('%s is %s minor units of %s, and prints as %s', (typed, minor, currency, decimal) => {
  expect(typedMoney(typed)).toEqual({ minor, currency });
  expect(moneyDecimal({ minor, currency })).toBe(decimal);
});

test.each([
  '', '85.50', 'USD', 'USD USD', '85.505 USD', '1,200 USD', '12.5 JPY', 'JPY 12.5', '-5 USD', '5 ZQX', 'ZQX 5', '5 US', '5 DOLLARS', 'A5 USD',
  '5 USD?', '5.USD', '5. USD', '1234567890 USD', 'USD 1234567890', '1.2345 KWD', 'KWD 1.2345', 'USD 5 USD', '5/5 USD', 'USD 5/5', '5 $$$', '$$$ 5',
  'X.5 USD', 'USD X.5', '5.X USD', 'USD 5.X', 'USD-5', '5-USD', 'USD 5 each', 'about USD 5',
])('%s is no sum', (typed) => {
  expect(typedMoney(typed)).toBeNull();
}); // prettier-ignore
