import type { Writer } from '#lib/record/append.ts';
import { deviceClock } from './clock.ts';
import type { Identity } from './identity.ts';
import { randomId } from './random-id.ts';

/** What this device brings to each entry: who it is, its key, its clocks and its chance. One for a page. */
export function deviceWriter(identity: Identity): Writer {
  return { ...identity, now: deviceClock(), newId: randomId };
}
