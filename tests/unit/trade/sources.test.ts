import { judgeSaid } from '#lib/job/judged.ts';
import { LINER_TEST, SOURCES } from '#lib/trade/sources.ts';
import { expect, test } from 'vitest';

// IPC 312.9: at least 2 in (51 mm as printed) at the threshold, at least 15 min.
test('the liner test is what section 312.9 says, and cites it', () => {
  expect(LINER_TEST).toEqual({ depthIn: '2', depthMm: '51', holdMin: 15, cite: 'IPC 312.9', source: 'ipc-312.9' });
  expect(SOURCES[LINER_TEST.source].title).toContain('312.9');
});

test.each([
  ['in', LINER_TEST.depthIn, '1.9375', 'outside'],
  ['in', LINER_TEST.depthIn, '2', 'within'],
  ['mm', LINER_TEST.depthMm, '50', 'outside'],
  ['mm', LINER_TEST.depthMm, '51', 'within'],
] as const)('in %s the liner test of %s judges %s %s', (unit, min, value, verdict) => {
  const limit = { limit: 'l', what: 'flood-depth', min, max: null, unit, source: { kind: 'code', text: LINER_TEST.cite } } as const;
  expect(judgeSaid('flood-depth', { text: value, value, unit }, [limit]).verdict).toBe(verdict);
});
