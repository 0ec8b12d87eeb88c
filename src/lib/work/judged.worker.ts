import { readEntry } from '#lib/record/entry.ts';
import { recompute, type Recomputed } from '#lib/report/recompute.ts';
import { serve } from './bridge.ts';

/** Every record of a log against what its own part of the log gives by today's rules. */
serve<readonly string[], Recomputed[]>(async (raws) =>
  recompute(
    raws.flatMap((raw) => {
      const read = readEntry(raw, 'log');
      return read.ok ? [read.value] : [];
    }),
  ),
);
