import * as m from './compiled/messages.js';

const NOT_SAVED = {
  full: m.fault_not_saved_full,
  gone: m.fault_not_saved_gone,
  blocked: m.fault_not_saved_blocked,
  newer: m.fault_not_saved_newer,
  failed: m.fault_not_saved_failed,
} as const;

const CLOSED = {
  full: m.fault_closed_full,
  gone: m.fault_closed_gone,
  blocked: m.fault_closed_blocked,
  newer: m.fault_closed_newer,
  failed: m.fault_closed_failed,
} as const;

type StoreFault = keyof typeof NOT_SAVED;
type SaveFault = { code: 'not-saved'; why: StoreFault } | { code: 'read-back' };

/** What to say when the book cannot be opened, or was taken from this page: what happened, what is safe, what to do. */
export function closedText(why: StoreFault): string {
  return CLOSED[why]();
}

/** The code of the message: `not-saved-full`, `read-back`. */
export function saveFaultCode(fault: SaveFault): string {
  return fault.code === 'not-saved' ? `not-saved-${fault.why}` : fault.code;
}

/** What to say when entries were not saved. */
export function saveFaultText(fault: SaveFault): string {
  return fault.code === 'read-back' ? m.fault_read_back() : NOT_SAVED[fault.why]();
}
