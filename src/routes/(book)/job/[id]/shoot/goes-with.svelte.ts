import { ReadingOnPad, type Drafts } from '#lib/record/drafts.ts';
import type { Measure } from '#lib/record/kinds/reading.ts';
import type { OpenJob } from '#lib/state/job.svelte.ts';
import type { Besides, Shooting } from '#lib/state/shooting.svelte.ts';
import { padHref } from '../read/address.ts';
import { EMPTY_PAD, onPad } from '../read/pad.ts';
import { afterKept, readingDraft } from '../read/reading-draft.ts';

/** The reading on the pad that the next photo goes with: kept together with it, or typed from it where the pad says nothing yet. */
export class GoesWith {
  readonly what: Measure;
  readonly #job: OpenJob;
  readonly #run: string | null;
  readonly #drafts: Drafts;
  #pad: ReadingOnPad = $state.raw(EMPTY_PAD);
  /** Ids of the readings before the photo that took this one along; null before the shutter. */
  #before: ReadonlySet<string> | null = $state.raw(null);
  readonly on = $derived.by(() => onPad(this.what, this.#job.state.units, this.#pad));

  constructor(what: Measure, job: OpenJob, run: string | null, drafts: Drafts) {
    this.what = what;
    this.#job = job;
    this.#run = run;
    this.#drafts = drafts;
  }

  async open(): Promise<void> {
    this.#pad = (await this.#drafts.get(['reading', this.#job.id, this.what], ReadingOnPad)) ?? EMPTY_PAD;
  }

  get surface() {
    return this.#pad.surface;
  }
  /** Whether a photo has taken it along. */
  get taken() {
    return this.#before !== null;
  }

  /** At the shutter: what is kept together with the photo, if anything. */
  take(): Besides | null {
    this.#before = new Set(this.#job.state.readings.map(({ id }) => id));
    const { on } = this;
    return on.is === 'said' ? (shot) => readingDraft(this.what, on.said, this.#pad, this.#run, shot) : null;
  }

  /** The picture was none: the next one goes with it. */
  giveBack(): void {
    this.#before = null;
  }

  /** Back to the pad once photo and reading are kept, or the photo to type from; null until then. `last` is the photo kept last. */
  way({ waiting, held }: Shooting, last: string | null): string | null {
    const before = this.#before;
    if (before === null || waiting > 0 || held.length > 0 || last === null) return null;
    const pad = this.#pad;
    const at = { run: this.#run, what: this.what, surface: pad.surface, coat: pad.coat ?? null, attempt: pad.attempt ?? null };
    if (this.on.is !== 'said') return padHref(this.#job.id, 'read', { ...at, shot: last });
    const reading = this.#job.state.readings.findLast((one) => one.what === this.what && one.shot !== null && !before.has(one.id));
    return reading === undefined ? null : padHref(this.#job.id, 'read', { ...at, kept: reading.id });
  }

  /** The pad is empty again, once what it said is kept. */
  async clear(): Promise<void> {
    if (this.on.is === 'said') await this.#drafts.put(['reading', this.#job.id, this.what], afterKept(this.#pad));
  }
}
