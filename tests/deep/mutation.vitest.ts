import { defineConfig } from 'vitest/config';

/** The tests that answer for `trade` and `measure`, without the app around them. */
export default defineConfig({
  test: {
    include: ['tests/unit/{trade,measure}/*.test.ts', 'tests/property/{trade-core,trade-b,units}.test.ts'],
    env: { TZ: 'Australia/Lord_Howe' },
    testTimeout: 60_000,
  },
});
