import { defineConfig } from 'vitest/config';

/** The tests that answer for `trade` and `measure`, without the app around them, as one file: one worker for each change. */
export default defineConfig({
  test: {
    include: ['tests/deep/mutation.all.ts'],
    env: { TZ: 'Australia/Lord_Howe', PROPERTY_RUNS: '40' },
    testTimeout: 60_000,
  },
});
