import type { Unit } from '#lib/record/kinds/reading.ts';

/** Digits before and after the mark that the keys take for a unit: as fine as its instrument is read, and room for one digit too many to be seen. */
export interface KeyRoom {
  readonly whole: number;
  readonly decimals: number;
}

const ROOM: Readonly<Partial<Record<Unit, KeyRoom>>> = {
  mm: { whole: 4, decimals: 1 },
  mil: { whole: 4, decimals: 1 },
  um: { whole: 5, decimals: 0 },
  F: { whole: 3, decimals: 1 },
  C: { whole: 3, decimals: 1 },
  '%': { whole: 3, decimals: 2 },
  'in/ft': { whole: 2, decimals: 4 },
  'mm/m': { whole: 3, decimals: 1 },
};

export function keyRoom(unit: Unit): KeyRoom {
  return ROOM[unit] ?? { whole: 4, decimals: 2 };
}

/** What stands after a key: a digit, `.` for the decimal mark of any language, `-` for the other sign, or `delete`. What would be no number is not taken. */
export function typed(value: string, key: string, room: KeyRoom): string {
  if (key === 'delete') return value.slice(0, -1);
  if (key === '-') return value.startsWith('-') ? value.slice(1) : `-${value}`;
  const [sign, digits] = value.startsWith('-') ? ['-', value.slice(1)] : ['', value];
  if (key === '.') return room.decimals === 0 || digits.includes('.') ? value : `${sign}${digits === '' ? '0' : digits}.`;
  const next = digits === '0' ? key : `${digits}${key}`;
  const [whole = '', decimals = ''] = next.split('.');
  return whole.length > room.whole || decimals.length > room.decimals ? value : `${sign}${next}`;
}
