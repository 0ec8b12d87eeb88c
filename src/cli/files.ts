import { openAsBlob } from 'node:fs';
import { stat, writeFile } from 'node:fs/promises';
import { fail, ok, type Result } from '#lib/result.ts';
import * as m from '#lib/words/compiled/messages.js';
import { badInput, type Call, type Outcome } from './outcome.ts';

/** The file a command reads, as a Blob that stays on the disk. */
export async function openInput({ file, locale }: Call): Promise<Result<Blob, Outcome>> {
  try {
    if ((await stat(file)).isFile()) return ok(await openAsBlob(file));
  } catch {
    // Absent or not readable: the same answer.
  }
  return fail(badInput('FILE', 'no-such-file', m.fault_no_such_file({ file }, { locale })));
}

/** Writes a command's output, piece by piece. Null when it is written. */
export async function writeOutput(body: Blob, { out, locale }: Call): Promise<Outcome | null> {
  try {
    await writeFile(out, body.stream());
    return null;
  } catch {
    return badInput('--out', 'cannot-write', m.fault_cannot_write({ file: out }, { locale }));
  }
}
