// All tests that answer for `trade` and `measure` as one file: a change then costs one worker and one reading of the modules.
import.meta.glob(
  ['../unit/{trade,measure}/*.test.ts', '../property/{trade-core,trade-b,units}.test.ts', '!../unit/trade/reached.test.ts'],
  {
    eager: true,
  },
);
