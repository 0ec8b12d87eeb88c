import * as z from 'zod/mini';
import { append, type Writer } from '#lib/record/append.ts';
import { Book, type Blob256 } from '#lib/record/book.ts';
import { HARMLESS, verifyChains } from '#lib/record/chain.ts';
import { Drafts } from '#lib/record/drafts.ts';
import { sha256Hex } from '#lib/record/hash.ts';
import { known, type Draft } from '#lib/record/kinds.ts';
import type { Key } from '#lib/record/shelf.ts';
import { Disk, PowerShelf, type Durability } from './power-shelf.ts';
import { random } from './random.ts';

const JOB = 'job-1';
const Typed = z.object({ typed: z.number() });

/** What the pages were told is saved, kept outside the computer that loses its power. */
export interface Told {
  readonly raws: string[];
  readonly pictures: Map<string, Uint8Array>;
  /** What each tab was last told is on disk of its draft; nothing once it asked for its end. */
  readonly drafts: Map<string, number>;
}

export function nothingTold(): Told {
  return { raws: [], pictures: new Map(), drafts: new Map() };
}

/**
 * One round from a seed: two tabs of one phone write drafts, photos and readings into one chain, in an order of the seed's
 * choosing; at an operation of its choosing the power goes; it comes back, and work goes on. Answers everything that is wrong.
 */
export async function crewDay(seed: number, durability: Durability): Promise<string[]> {
  const draw = random(seed);
  const disk = new Disk();
  const told = nothingTold();
  const cutAt = 1 + Math.floor(draw() * 130);
  disk.trouble = (operation) => (operation === cutAt ? 'cut' : null);
  const pause = async () => {
    for (let turns = Math.floor(draw() * 4); turns > 0; turns--) await Promise.resolve();
  };
  const tab = (name: string) => new Tab(name, new PowerShelf(disk, durability, pause), told, draw);
  const [one, other] = [tab('a'), tab('b')];
  await Promise.race([Promise.all([one.work(), other.work()]), disk.dark]);
  disk.powerUp(draw());
  await tab('later').shoot();
  return missing(disk, told);
}

/** One page at work. Every entry it is told is saved goes into `told`, at once and not before. */
class Tab {
  readonly #name: string;
  readonly #book: Book;
  readonly #drafts: Drafts;
  readonly #writer: Writer;
  readonly #told: Told;
  readonly #draw: () => number;

  constructor(name: string, shelf: PowerShelf, told: Told, draw: () => number) {
    this.#name = name;
    this.#book = new Book(shelf);
    this.#drafts = new Drafts(shelf);
    this.#writer = simulatedWriter(name);
    this.#told = told;
    this.#draw = draw;
  }

  async work(): Promise<void> {
    const typed = Math.floor(this.#draw() * 1_000);
    await this.#drafts.put(draftKey(this.#name), { typed });
    this.#told.drafts.set(this.#name, typed);
    await this.shoot();
    await this.#add(readingDraft(typed), []);
    this.#told.drafts.delete(this.#name);
    await this.#drafts.drop(draftKey(this.#name));
    await this.shoot();
  }

  async shoot(): Promise<void> {
    const bytes = Uint8Array.from({ length: 20 + Math.floor(this.#draw() * 60) }, () => Math.floor(this.#draw() * 256));
    const { draft, blob } = photo(bytes);
    await this.#add(draft, [blob]);
    this.#told.pictures.set(blob.sha256, bytes);
  }

  async #add(draft: Draft, blobs: readonly Blob256[]): Promise<void> {
    const done = await append(this.#book, JOB, [draft], blobs, this.#writer);
    if (!done.ok) throw new Error(JSON.stringify(done.fault));
    this.#told.raws.push(...done.value.map((entry) => entry.raw));
  }
}

/** What a page opened anew misses of what was told, and what it finds half or out of order. */
export async function missing(disk: Disk, told: Told): Promise<string[]> {
  const shelf = new PowerShelf(disk);
  const book = new Book(shelf);
  const { entries, faults } = await book.log(JOB);
  const raws = new Set(entries.map((entry) => entry.raw));
  const wrong = faults.map((fault) => fault.code as string);
  for (const raw of told.raws) if (!raws.has(raw)) wrong.push(`lost entry ${raw.slice(0, 80)}`);
  for (const [sha256, bytes] of told.pictures)
    if (sha256 !== (await hashOf(book, sha256))) wrong.push(`lost ${bytes.length} bytes of ${sha256}`);
  for (const entry of entries) {
    const view = known(entry);
    if (view.kind !== 'shot') continue;
    const { sha256 } = view.data.picture;
    if ((await hashOf(book, sha256)) !== sha256) wrong.push(`entry ${entry.body.seq} without its photo`);
  }
  wrong.push(...verifyChains(entries).flatMap(({ code, seq }) => (HARMLESS.has(code) ? [] : [`${code} at ${seq}`])));
  if (new Set(entries.map((entry) => entry.body.id)).size !== entries.length) wrong.push('an id twice');
  if ((await book.head(JOB, DEVICE))?.hash !== entries.at(-1)?.hash) wrong.push('head is not the last entry');
  for (const [tab, typed] of told.drafts) {
    if ((await new Drafts(shelf).get(draftKey(tab), Typed))?.typed !== typed) wrong.push(`lost draft of ${tab}`);
  }
  return wrong;
}

function draftKey(tab: string): Key {
  return ['pad', JOB, tab];
}

async function hashOf(book: Book, sha256: string): Promise<string | null> {
  const blob = await book.blob(sha256);
  return blob === null ? null : sha256Hex(new Uint8Array(await blob.arrayBuffer()));
}

const DEVICE = 'phone-1';

/** Unsigned, because ten thousand rounds of signatures would prove the signature and not the store. */
export function simulatedWriter(session: string): Writer {
  let ids = 0;
  let ms = 0;
  return {
    device: DEVICE,
    person: 'ana',
    signer: { publicKey: null, whyNone: 'no-key-store', sign: async () => null },
    now: () => ({ utc: '2026-03-02T14:00:00.000Z', offsetMin: -360, zone: 'America/Chicago', monoMs: ms++, session }),
    newId: () => `${session}-${ids++}`,
  };
}

export function photo(bytes: Uint8Array<ArrayBuffer>): { draft: Draft; blob: Blob256 } {
  const sha256 = sha256Hex(bytes);
  const picture = { sha256, bytes: bytes.length, type: 'image/jpeg' };
  return {
    draft: { kind: 'shot', data: { picture, from: 'viewfinder', surface: null } },
    blob: { sha256, body: new Blob([bytes], { type: 'image/jpeg' }) },
  };
}

function readingDraft(typed: number): Draft {
  const said = { text: String(typed), value: String(typed), unit: 'mm' as const };
  return { kind: 'reading', data: { what: 'overlap', surface: null, said, how: 'tape' } };
}
