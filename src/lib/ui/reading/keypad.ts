/** Digits before and after the mark that the keypad takes: up to 9999.9, a tape's millimetres and their tenths. */
const WHOLE_MAX = 4;
const DECIMALS_MAX = 1;

/** What stands after a key: a digit, `.` for the decimal mark of any language, or `delete`. What would not be a length is not taken. */
export function typed(value: string, key: string): string {
  if (key === 'delete') return value.slice(0, -1);
  if (key === '.') return value.includes('.') ? value : `${value === '' ? '0' : value}.`;
  const next = value === '0' ? key : `${value}${key}`;
  const [whole = '', decimals = ''] = next.split('.');
  return whole.length > WHOLE_MAX || decimals.length > DECIMALS_MAX ? value : next;
}
