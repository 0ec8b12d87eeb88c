import { unpack } from '#lib/record/unpack.ts';
import { recompute } from '#lib/report/recompute.ts';
import { archiveFaultText } from '#lib/words/archive-fault.ts';
import { openInput } from './files.ts';
import { badInput, type Call, type Outcome } from './outcome.ts';
import { recomputePhotos } from './recompute-photos.ts';
import { recomputePlans } from './recompute-plans.ts';

/**
 * Builds every record of an archive anew from the log it was built from, and names each value that differs; works every kept plan out again;
 * and measures every photo value again in its photo.
 */
export async function recomputeCommand(call: Call): Promise<Outcome> {
  const container = await openInput(call);
  if (!container.ok) return container.fault;
  const content = await unpack(container.value);
  if (!content.ok) return badInput('FILE', content.fault.code, archiveFaultText(content.fault, call.locale));
  const { entries, blob } = content.value;
  const records = recompute(entries);
  const photos = await recomputePhotos(entries, blob);
  const plans = recomputePlans(entries);
  const differences =
    [...records, ...plans].reduce((sum, one) => sum + (one.differences?.length ?? 0), 0) +
    photos.filter(({ same }) => same === false).length;
  return { exit: 0, answer: { job: entries[0]?.body.job ?? null, entries: entries.length, differences, records, plans, photos } };
}
