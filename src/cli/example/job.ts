import { EXAMPLE_JOB } from '#lib/job/example.ts';
import { readFile } from 'node:fs/promises';
import { append, type Writer } from '#lib/record/append.ts';
import { Book, type Blob256 } from '#lib/record/book.ts';
import { ed25519Signer } from '#lib/record/ed25519.ts';
import type { Times } from '#lib/record/entry.ts';
import { sha256Hex } from '#lib/record/hash.ts';
import type { Draft } from '#lib/record/kinds.ts';
import { MemoryShelf } from '#lib/record/memory-shelf.ts';
import { DAYS, EXAMPLE_DEVICE, EXAMPLE_ZONE, type Happening, type Photo } from './day.ts';

/** Where the app serves the example from. */
export const EXAMPLE_FOLDER = new URL('../../../static/example/', import.meta.url);

/**
 * The example's secret key: the bytes 0 to 31, public on purpose. Anyone can sign as the example's phone, so its signatures
 * show how a check works and prove nothing about who made the job.
 */
const PUBLIC_EXAMPLE_KEY = Uint8Array.from({ length: 32 }, (_, i) => i);

/**
 * The example job, sealed by the same code as any job, with fixed ids, times and key: the same log, byte for byte, every time.
 * `blobs` holds its pictures by SHA-256. Throws when a picture is missing from static/example/ or the book refuses an entry.
 */
export async function exampleJob(): Promise<{ raws: string[]; blobs: Map<string, Blob> }> {
  const book = new Book(new MemoryShelf());
  const signer = ed25519Signer(PUBLIC_EXAMPLE_KEY);
  const blobs = new Map<string, Blob>();
  for (const happening of DAYS) {
    const { draft, blob } = await drafted(happening.what);
    const writer: Writer = {
      device: EXAMPLE_DEVICE,
      person: happening.by,
      signer,
      now: () => timesOf(happening),
      newId: () => 'phone-joined',
    };
    const done = await append(book, EXAMPLE_JOB, [draft], blob === null ? [] : [blob], writer);
    if (!done.ok) throw new Error(`${draft.id ?? draft.kind}: ${JSON.stringify(done.fault)}`);
    if (blob !== null) blobs.set(blob.sha256, blob.body);
  }
  const { entries } = await book.log(EXAMPLE_JOB);
  return { raws: entries.map((entry) => entry.raw), blobs };
}

/** The log as the committed file holds it: an entry a line. */
export function exampleLog(raws: readonly string[]): string {
  return raws.map((raw) => `${raw}\n`).join('');
}

function timesOf({ at, offsetMin, session }: Happening): Times {
  const ms = Date.parse(at);
  return {
    utc: new Date(ms).toISOString(),
    offsetMin,
    zone: EXAMPLE_ZONE,
    monoMs: ms - Date.parse(session.began),
    session: session.id,
  };
}

async function drafted(what: Draft | Photo): Promise<{ draft: Draft; blob: Blob256 | null }> {
  if (what.kind !== 'photo') return { draft: what, blob: null };
  const { id, run, file, surface, shows, cameraSays } = what;
  const bytes = new Uint8Array(await readFile(new URL(file, EXAMPLE_FOLDER)));
  const type = 'image/jpeg';
  const blob = { sha256: sha256Hex(bytes), body: new Blob([bytes], { type }) };
  const draft: Draft = {
    id,
    kind: 'shot',
    ...(run === undefined ? {} : { run }),
    data: {
      picture: { sha256: blob.sha256, bytes: bytes.length, type },
      from: cameraSays === undefined ? 'viewfinder' : 'file',
      surface,
      ...(shows === undefined ? {} : { shows: [...shows] }),
      ...(cameraSays === undefined ? {} : { cameraSays }),
    },
  };
  return { draft, blob };
}
