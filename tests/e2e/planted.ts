import type { Page } from '@playwright/test';
import sharp from 'sharp';
import { append, type Writer } from '#lib/record/append.ts';
import { Book, type Blob256 } from '#lib/record/book.ts';
import { ed25519Signer } from '#lib/record/ed25519.ts';
import { sha256Hex } from '#lib/record/hash.ts';
import type { Draft } from '#lib/record/kinds.ts';
import type { Measure, Unit } from '#lib/record/kinds/reading.ts';
import type { Step, Surface } from '#lib/record/kinds/setup.ts';
import { MemoryShelf } from '#lib/record/memory-shelf.ts';
import { photographs } from './film.ts';
import type { Site } from './site.ts';

/** What another phone of the crew wrote; `ago` says how many minutes before now. */
export type Planted = Draft & { readonly ago?: number };

/** A photo in small, as another phone took it: the entry and its bytes. */
export interface PlantedShot {
  readonly draft: Planted;
  readonly blob: Blob256 & { readonly bytes: Buffer };
}

export function job(name: string, units: 'in' | 'mm' = 'in'): Planted {
  return { kind: 'job', data: { name, address: '12 Elm Street', units, lang: 'en' } };
}
export function room(id: string, name: string): Planted {
  return { kind: 'room', data: { room: id, name } };
}
export function surface(id: string, name: string, place: Surface['place'], more: Partial<Surface> = {}): Planted {
  return { kind: 'surface', data: { surface: id, name, place, system: 'sheet-and-liquid', ...more } };
}
export function limit(what: Measure, min: string | null, max: string | null, unit: Unit, more: object = {}): Planted {
  const id = `limit-${what}${'scale' in more ? `-${String(more.scale)}` : ''}`;
  return { kind: 'limit', data: { limit: id, what, min, max, unit, source: { kind: 'data-sheet', text: 'page 2, edition 7' }, ...more } };
}
/** A run still open; its id is `run-STEP`. */
export function run(step: Step, surfaces: readonly string[], { ago = 30, coat }: { ago?: number; coat?: number } = {}): Planted {
  return { id: `run-${step}`, ago, kind: 'run-start', data: { step, surfaces: [...surfaces], ...(coat === undefined ? {} : { coat }) } };
}

/** Photos that nobody has placed, one a minute, the last `ago` minutes before now. */
export async function looseShots(n: number, ago: number): Promise<PlantedShot[]> {
  const files = photographs();
  return Promise.all(
    Array.from({ length: n }, async (_, i) => {
      // Turned a little each, so that no two are the same.
      const bytes = await sharp(files[i % files.length])
        .resize(160, 120)
        .modulate({ hue: i })
        .jpeg()
        .toBuffer();
      const blob = { sha256: sha256Hex(bytes), body: new Blob([new Uint8Array(bytes)], { type: 'image/jpeg' }), bytes };
      const draft: Planted = {
        id: `shot-${i}`,
        ago: ago + n - 1 - i,
        kind: 'shot',
        data: { picture: { sha256: blob.sha256, bytes: bytes.length, type: 'image/jpeg' }, from: 'viewfinder', surface: null },
      };
      return { draft, blob };
    }),
  );
}

/** Puts a job into the store past the app, sealed by another phone of the crew. The app must have opened its store before. */
export async function plant(page: Page, id: string, drafts: readonly Planted[], shots: readonly PlantedShot[] = []): Promise<void> {
  const book = new Book(new MemoryShelf());
  const now = Date.now();
  let ids = 0;
  for (const { ago = 60, ...draft } of [...drafts, ...shots.map((shot) => shot.draft)].toSorted((a, b) => (b.ago ?? 60) - (a.ago ?? 60))) {
    const at = now - ago * 60_000;
    const writer: Writer = {
      device: 'phone-b',
      person: 'ben',
      signer: ed25519Signer(new Uint8Array(32).fill(9)),
      now: () => ({ utc: new Date(at).toISOString(), offsetMin: -360, zone: 'America/Chicago', monoMs: 0, session: `s-${ids}` }),
      newId: () => `planted-${(ids += 1)}`,
    };
    const kept = await append(book, id, [draft], [], writer);
    if (!kept.ok) throw new Error(JSON.stringify(kept.fault));
  }
  const { entries } = await book.log(id);
  const rows = {
    entries: entries.map(({ raw, body }) => [[body.job, body.device, body.seq], raw] as const),
    heads: (await book.heads(id)).map((head) => [[head.job, head.device], head] as const),
    blobs: shots.map(({ blob }) => [blob.sha256, blob.bytes.toString('base64')] as const),
  };
  await page.evaluate(async (planted) => {
    const db = await new Promise<IDBDatabase>((resolve, reject) => {
      const request = indexedDB.open('layerbook');
      request.onsuccess = () => resolve(request.result);
      request.onerror = () => reject(request.error ?? new Error('no answer'));
    });
    const blobs = planted.blobs.map(
      ([sha256, base64]) =>
        [sha256, new Blob([Uint8Array.from(atob(base64), (char) => char.charCodeAt(0))], { type: 'image/jpeg' })] as const,
    );
    const tx = db.transaction(['entries', 'heads', 'blobs', 'parts'], 'readwrite');
    for (const [key, raw] of planted.entries) tx.objectStore('entries').put(raw, [...key]);
    for (const [key, head] of planted.heads) tx.objectStore('heads').put(head, [...key]);
    for (const [sha256, blob] of blobs) {
      tx.objectStore('blobs').put({ bytes: blob.size, type: blob.type, parts: 1 }, [sha256]);
      tx.objectStore('parts').put(blob, [sha256, 0]);
    }
    await new Promise((done, failed) => {
      tx.oncomplete = done;
      tx.onerror = failed;
    });
    db.close();
  }, rows);
}

/** A phone that holds this job, on the job's home. */
export async function plantedSite(site: Site, id: string, drafts: readonly Planted[], shots: readonly PlantedShot[] = []): Promise<void> {
  await site.openJobs();
  await plant(site.page, id, drafts, shots);
  await site.page.goto(`/job/${id}`);
  await site.page.getByTestId('section').waitFor();
}
