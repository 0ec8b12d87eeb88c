/** Keeps the screen from going dark by itself until the returned function is called. Where the phone refuses, or does not know how, it changes nothing. */
export function keepScreenAwake(): () => void {
  const { wakeLock } = navigator as Partial<Navigator>;
  let over = false;
  let held: WakeLockSentinel | null = null;
  const keep = (lock: WakeLockSentinel) => {
    // The answer may come after its use.
    if (over) void lock.release();
    else held = lock;
  };
  const ask = async () => {
    // Given only to a page in sight, and taken back whenever it goes out of sight.
    if (over || wakeLock === undefined || document.visibilityState !== 'visible') return;
    await wakeLock.request('screen').then(keep, () => undefined);
  };
  const askAgain = () => void ask();
  document.addEventListener('visibilitychange', askAgain);
  askAgain();
  return () => {
    over = true;
    document.removeEventListener('visibilitychange', askAgain);
    void held?.release();
  };
}
