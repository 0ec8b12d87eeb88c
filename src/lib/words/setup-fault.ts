import * as m from './compiled/messages.js';

const SAID = {
  empty: m.setup_empty,
  'too-long': m.setup_too_long,
  'no-surface': m.setup_no_surface,
  'same-name': m.setup_same_name,
  'not-a-length': m.setup_not_a_length,
  'max-below-min': m.setup_max_below_min,
  'no-source': m.setup_no_source,
  'too-large': m.setup_too_large,
} as const;

/** What is in the way in one field of the form that starts a job. */
export function setupFaultText(code: keyof typeof SAID): string {
  return SAID[code]();
}
