import { buildArchive } from '#lib/record/archive.ts';
import { readEntry } from '#lib/record/entry.ts';
import { archiveFaultText } from '#lib/words/archive-fault.ts';
import { exampleJob } from './example/job.ts';
import { writeOutput } from './files.ts';
import { badInput, type Call, type Outcome } from './outcome.ts';

/** Writes the archive of the example job: the same bytes every time, dated with the day of its last entry. */
export async function exampleCommand(call: Call): Promise<Outcome> {
  const { raws, blobs } = await exampleJob();
  const last = readEntry(raws.at(-1) ?? '', 'example');
  if (!last.ok) throw new Error(`example: ${last.fault.code}`);
  const { job, times } = last.value.body;
  const built = await buildArchive({ raws, blob: async (sha256) => blobs.get(sha256) ?? null, date: times.utc.slice(0, 10) });
  if (!built.ok) return badInput('example', built.fault.code, archiveFaultText(built.fault, call.locale));
  const { blob, missing } = built.value;
  return (await writeOutput(blob, call)) ?? { exit: 0, answer: { job, entries: raws.length, bytes: blob.size, missing, out: call.out } };
}
