import type { Held } from '#lib/record/book.ts';

const PLACE = 'layerbook-held:';

/**
 * Notes what a store holds in the browser's other storage, which is seldom lost together with the database. A log only grows, so less
 * than before is loss, never a new user.
 */
export function remember(store: string, now: Held): void {
  try {
    localStorage.setItem(PLACE + store, JSON.stringify(now));
  } catch {
    // Refused in some private windows: the book then starts without this second memory.
  }
}

/** What was noted last of a store, or null when nothing was or it cannot be read. */
export function remembered(store: string): Held | null {
  try {
    const noted: unknown = JSON.parse(localStorage.getItem(PLACE + store) ?? 'null');
    return isHeld(noted) ? noted : null;
  } catch {
    return null;
  }
}

/** How many entries the store has lost since it was last looked at, and how many are left; null when none is missing. */
export function loss(before: Held | null, now: Held): { held: number; found: number } | null {
  if (before === null) return null;
  const whole = now.entries >= before.entries && before.devices.every((device) => now.devices.includes(device));
  return whole ? null : { held: before.entries, found: now.entries };
}

function isHeld(value: unknown): value is Held {
  if (typeof value !== 'object' || value === null) return false;
  const { entries, devices } = value as Record<string, unknown>;
  return Number.isSafeInteger(entries) && Array.isArray(devices) && devices.every((device) => typeof device === 'string');
}
