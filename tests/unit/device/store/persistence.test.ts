import { afterEach, expect, it, vi } from 'vitest';
import { askToKeep, persistence } from '#lib/device/store/persistence.ts';

afterEach(() => vi.unstubAllGlobals());

const yes = () => Promise.resolve(true);
const no = () => Promise.resolve(false);
const broken = () => Promise.reject(new TypeError('not here'));

it.each([
  { storage: undefined, stands: 'unknown', asked: 'unknown' },
  { storage: { persisted: broken, persist: broken }, stands: 'unknown', asked: 'unknown' },
  { storage: { persisted: no, persist: no }, stands: 'may-be-cleared', asked: 'may-be-cleared' },
  { storage: { persisted: no, persist: yes }, stands: 'may-be-cleared', asked: 'kept' },
  // Granted already: the person is not asked again.
  { storage: { persisted: yes, persist: broken }, stands: 'kept', asked: 'kept' },
])('$stands, and after asking $asked', async ({ storage, stands, asked }) => {
  vi.stubGlobal('navigator', { storage });
  expect(await persistence()).toBe(stands);
  expect(await askToKeep()).toBe(asked);
});
