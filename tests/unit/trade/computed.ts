import type { Computed } from '#lib/trade/input.ts';

/** The value of a computation that must have succeeded. */
export function valueOf<T>(computed: Computed<T>): T {
  if (!computed.ok) throw new RangeError(`${computed.fault.field}: ${computed.fault.code}`);
  return computed.value;
}
