import { deviceIdentity } from '#lib/device/identity.ts';
import { loss, remember, remembered } from '#lib/device/store/canary.ts';
import { openIdbShelf } from '#lib/device/store/idb-shelf.ts';
import { askToKeep, persistence, type Persistence } from '#lib/device/store/persistence.ts';
import { deviceWriter } from '#lib/device/writer.ts';
import { EXAMPLE_JOB } from '#lib/job/example.ts';
import type { Writer } from '#lib/record/append.ts';
import { Book } from '#lib/record/book.ts';
import { Drafts } from '#lib/record/drafts.ts';
import { ShelfError, type Shelf, type ShelfFaultCode } from '#lib/record/shelf.ts';
import { Previews } from '#lib/work/previews.ts';
import { exampleSource } from './example.ts';
import { OpenJob } from './job.svelte.ts';
import { Lookup } from './lookup.svelte.ts';

const STORE = 'layerbook';

/** What stands on this phone once its store is open. */
interface Opened {
  readonly shelf: Shelf;
  readonly book: Book;
  readonly drafts: Drafts;
  readonly previews: Previews;
  readonly writer: Writer;
}

/** The desk: the phone's store opened once, and the jobs taken from it. Everything a page needs hangs here. */
export class Desk {
  #opened: Promise<Opened> | null = null;
  #lookup: Lookup | null = null;
  readonly #jobs = new Map<string, Promise<OpenJob | null>>();
  #fault: ShelfFaultCode | null = $state(null);
  #lost: { held: number; found: number } | null = $state.raw(null);
  #persistence: Persistence = $state('unknown');

  /** Why the store cannot be used now; null while it can. `newer`: another page runs a newer build. */
  get fault() {
    return this.#fault;
  }
  /** Entries this phone held and no longer does, as found at the start. */
  get lost() {
    return this.#lost;
  }
  get persistence() {
    return this.#persistence;
  }

  /** Opens the store, once; a failed opening is tried again at the next call. Rejects with ShelfError and says so in `fault`. */
  open(): Promise<Opened> {
    this.#opened ??= this.#open().catch((error: unknown) => {
      this.#opened = null;
      this.#fault = error instanceof ShelfError ? error.code : 'failed';
      throw error;
    });
    return this.#opened;
  }

  async #open(): Promise<Opened> {
    const shelf = openIdbShelf(STORE, { superseded: () => void (this.#fault = 'newer') });
    const book = new Book(shelf);
    const before = remembered(STORE);
    const now = await book.held();
    this.#lost = loss(before, now);
    const writer = deviceWriter(await deviceIdentity(shelf));
    this.#fault = null;
    // Not awaited: some browsers put the question to the person, and the book opens all the same.
    void (now.entries > 0 ? askToKeep() : persistence()).then((stands) => (this.#persistence = stands));
    return { shelf, book, drafts: new Drafts(shelf), previews: new Previews(shelf), writer };
  }

  /** The person has read that entries are lost; from here on what is there counts. */
  async acceptLoss(): Promise<void> {
    const { book } = await this.open();
    remember(STORE, await book.held());
    this.#lost = null;
  }

  /** Finds jobs; made with the store's first opening. */
  async lookup(): Promise<Lookup> {
    const { shelf, book } = await this.open();
    return (this.#lookup ??= new Lookup(shelf, book));
  }

  /** A job of this phone, or the example; null when there is none of this id. The same object for all pages. */
  job(id: string): Promise<OpenJob | null> {
    const known = this.#jobs.get(id);
    if (known !== undefined) return known;
    const opening = this.#openJob(id).catch((error: unknown) => {
      this.#jobs.delete(id);
      throw error;
    });
    this.#jobs.set(id, opening);
    return opening;
  }

  /** A job that has no entry yet. It exists once its first entries are saved. */
  async newJob(): Promise<OpenJob> {
    const { writer } = await this.open();
    return this.#realJob(writer.newId());
  }

  async #openJob(id: string): Promise<OpenJob | null> {
    const { writer } = await this.open();
    const job = id === EXAMPLE_JOB ? await this.#example(writer) : await this.#realJob(id);
    await job?.load();
    if (job !== null && id !== EXAMPLE_JOB) void this.#checkCard(job);
    if (job === null || job.entries.length + job.faults.length > 0) return job;
    this.#jobs.delete(id);
    return null;
  }

  /** A card is a cache: a job opens whether or not it could be looked at. */
  async #checkCard(job: OpenJob): Promise<void> {
    const lookup = await this.lookup();
    if (job.entries.length > 0) await lookup.read(job.id, job.state).catch(() => undefined);
  }

  async #example(writer: Writer): Promise<OpenJob | null> {
    const source = await exampleSource(writer);
    return source === null ? null : new OpenJob(EXAMPLE_JOB, source);
  }

  async #realJob(id: string): Promise<OpenJob> {
    const { book, writer } = await this.open();
    const lookup = await this.lookup();
    const job: OpenJob = new OpenJob(id, {
      book,
      writer,
      kept: () => {
        lookup.wrote(id, () => job.state);
        void this.#afterKeep(book);
      },
    });
    return job;
  }

  /** To be called when entries came in past an open job: they count from now on. */
  async noteKept(): Promise<void> {
    const { book } = await this.open();
    await this.#afterKeep(book);
  }

  async #afterKeep(book: Book): Promise<void> {
    // While a loss is on the screen the older note is the only trace of it.
    if (this.#lost === null) remember(STORE, await book.held());
    if (this.#persistence !== 'kept') this.#persistence = await askToKeep();
  }
}

export const desk = new Desk();
