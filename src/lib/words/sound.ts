import * as m from './compiled/messages.js';

/** Length of a sound as `0:07` or `12:30`, minutes and seconds; part of a second is dropped. */
export function soundLengthText(ms: number): string {
  if (!(ms >= 0 && ms < 1e10)) throw new RangeError(`sound: expected milliseconds from 0, got ${ms}`);
  const seconds = Math.floor(ms / 1000);
  return `${Math.floor(seconds / 60)}:${String(seconds % 60).padStart(2, '0')}`;
}

const MICROPHONE = { refused: m.fault_microphone_refused, none: m.fault_microphone_none, lost: m.fault_microphone_lost } as const;

/** Why the microphone gives no sound: what happened, what is safe, what to do. */
export function microphoneFaultText(fault: keyof typeof MICROPHONE): string {
  return MICROPHONE[fault]();
}

/** What to say when a running recording does not reach the disk. */
export function notOnDiskText(why: 'full' | 'gone' | 'blocked' | 'newer' | 'failed'): string {
  return why === 'full' ? m.sound_not_on_disk_full() : m.sound_not_on_disk_failed();
}
