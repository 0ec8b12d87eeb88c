import { clearToCover } from '#lib/job/cover.ts';
import { proofOwed } from '#lib/job/proof.ts';
import { EMPTY_PROJECTION, extend, project } from '#lib/job/project.ts';
import { append, type Writer } from '#lib/record/append.ts';
import type { Blob256, Book, SaveFault } from '#lib/record/book.ts';
import type { Entry, EntryFault } from '#lib/record/entry.ts';
import type { Draft } from '#lib/record/kinds.ts';
import { fail, ok, type Result } from '../result.ts';

/** What opening a job needs from outside. The example brings a book in memory and its pictures from the app's own files. */
export interface JobSource {
  readonly book: Book;
  readonly writer: Writer;
  /** Told after each append, once it is saved. */
  readonly kept?: (entries: readonly Entry[]) => void;
  readonly fallbackPicture?: (sha256: string) => Promise<Blob | null>;
}

/** A job on the screen: its log, what the log means, and the one door through which it grows. */
export class OpenJob {
  readonly id: string;
  readonly #source: JobSource;
  #projection = $state.raw(EMPTY_PROJECTION);
  #faults: readonly EntryFault[] = $state.raw([]);

  readonly state = $derived(this.#projection.state);
  readonly layers = $derived(proofOwed(this.state));
  readonly cover = $derived(clearToCover(this.layers, this.state));
  readonly running = $derived(this.state.runs.filter((run) => run.stopUtc === null));

  constructor(id: string, source: JobSource) {
    this.id = id;
    this.#source = source;
  }

  /** Rows of the log that no longer parse: shown, never dropped in silence. */
  get faults() {
    return this.#faults;
  }

  get entries(): readonly Entry[] {
    return this.state.lines.map((line) => line.entry);
  }

  /** Reads the log anew, as another page may have written to it. */
  async load(): Promise<void> {
    const { entries, faults } = await this.#source.book.log(this.id);
    this.#projection = project(entries);
    this.#faults = faults;
  }

  /** Seals and keeps drafts with their bytes. Ok means saved: completed, flushed and read back. */
  async add(drafts: readonly Draft[], blobs: readonly Blob256[] = []): Promise<Result<Entry[], SaveFault>> {
    const { book, writer } = this.#source;
    // Whatever goes wrong between hand and store, the caller hears of it as a fault and keeps what it holds.
    const done = await append(book, this.id, drafts, blobs, writer).catch((error: unknown) =>
      fail<SaveFault>({ code: 'not-saved', why: 'failed', detail: String(error) }),
    );
    if (!done.ok) return done;
    const mine = this.entries.filter((entry) => entry.body.device === writer.device);
    this.#projection = extend(this.#projection, done.value);
    // Another page wrote in between. Should reading fail, what was just saved is shown all the same.
    if (done.value[0]?.body.seq !== mine.length) await this.load().catch(() => undefined);
    this.#source.kept?.(done.value);
    return ok(done.value);
  }

  /** The original bytes of a picture or record, or null when this phone does not hold them. */
  async blob(sha256: string): Promise<Blob | null> {
    return (await this.#source.book.blob(sha256)) ?? (await this.#source.fallbackPicture?.(sha256)) ?? null;
  }

  /** Who holds this phone. */
  get person() {
    return this.#source.writer.person;
  }

  now() {
    return this.#source.writer.now();
  }
}
