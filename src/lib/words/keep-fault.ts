import * as m from './compiled/messages.js';

const STORE_SAYS = {
  full: m.fault_not_saved_full,
  gone: m.fault_not_saved_gone,
  blocked: m.fault_not_saved_blocked,
  newer: m.fault_not_saved_newer,
  failed: m.fault_not_saved_failed,
} as const;

/** What to say when the phone's store refuses: what happened, what is safe, what to do. */
export function storeFaultText(why: keyof typeof STORE_SAYS): string {
  return STORE_SAYS[why]();
}

type KeepFault = { code: 'head-moved' } | { code: 'not-saved'; why: keyof typeof STORE_SAYS } | { code: 'read-back' };

/** The code of the message: `not-saved-full`, `read-back`. */
export function keepFaultCode(fault: KeepFault): string {
  return fault.code === 'not-saved' ? `not-saved-${fault.why}` : fault.code;
}

/** What to say when entries were not saved. */
export function keepFaultText(fault: KeepFault): string {
  if (fault.code === 'head-moved') return m.fault_chain_moved();
  return fault.code === 'read-back' ? m.fault_read_back() : storeFaultText(fault.why);
}
