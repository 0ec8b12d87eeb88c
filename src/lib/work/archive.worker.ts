import { buildArchive, namedFiles, type Archive } from '#lib/record/archive.ts';
import { readEntry } from '#lib/record/entry.ts';
import { mayTellPlace } from '#lib/record/place-tag.ts';
import { ok, fail, type Result } from '../result.ts';
import { serve } from './bridge.ts';

/** A job's log and the bytes it names, as handles: the bytes themselves stay where the browser keeps them. */
export interface ArchiveOrder {
  readonly raws: readonly string[];
  readonly blobs: ReadonlyMap<string, Blob>;
  readonly date: string;
  /** Whether photos that may tell where they were taken, and voice notes, go along. What does not is named as not held. */
  readonly place: boolean;
  readonly voice: boolean;
}

/** An archive, and how many files were kept back from it. */
export type MadeArchive = Archive & { readonly keptBack: number };

serve<ArchiveOrder, Result<MadeArchive, { code: string }>>(async ({ raws, blobs, date, place, voice }) => {
  const back = new Set<string>();
  const folders = new Map(namedFiles(raws.flatMap((raw) => entryOf(raw))).map(({ sha256, folder }) => [sha256, folder] as const));
  const blob = async (sha256: string): Promise<Blob | null> => {
    const body = blobs.get(sha256) ?? null;
    if (body === null) return null;
    const isVoice = folders.get(sha256) === 'sounds';
    const tells = !place && folders.get(sha256) === 'photos' && mayTellPlace(new Uint8Array(await body.arrayBuffer()));
    if (!tells && (voice || !isVoice)) return body;
    back.add(sha256);
    return null;
  };
  const built = await buildArchive({ raws, date, blob });
  if (!built.ok) return fail(built.fault);
  const missing = built.value.missing.filter(({ sha256 }) => !back.has(sha256));
  return ok({ ...built.value, missing, keptBack: back.size });
});

function entryOf(raw: string) {
  const read = readEntry(raw, 'log');
  return read.ok ? [read.value] : [];
}
