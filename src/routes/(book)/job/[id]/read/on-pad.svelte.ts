import { judgeSaid } from '#lib/job/judged.ts';
import type { SaveFault } from '#lib/record/book.ts';
import { ReadingOnPad, type Drafts } from '#lib/record/drafts.ts';
import type { Draft } from '#lib/record/kinds.ts';
import type { Reading } from '#lib/record/kinds/reading.ts';
import { DraftState } from '#lib/state/draft.svelte.ts';
import type { OpenJob } from '#lib/state/job.svelte.ts';
import type { ReadAddress } from './address.ts';
import { EMPTY_PAD, onPad, overRestored } from './pad.ts';
import { afterKept, readingDraft, spotTooLong } from './reading-draft.ts';
import { isTenfold, lastOf } from './slips.ts';

/** A reading just kept, as the pad says it. */
interface Kept {
  readonly id: string;
  readonly said: Reading['said'];
  readonly utc: string;
  readonly offsetMin: number;
  /** Together with a photo. */
  readonly withPhoto: boolean;
}

/** What a reading keeps of how it was spoken. */
export type Spoken = Required<Pick<Reading, 'heard' | 'engine' | 'confirmedHow' | 'clip' | 'clipHash'>> & Pick<Reading, 'otherHeard'>;

/** The pad of one measure: what is typed, how it stands, and the way into the log. */
export class PadState {
  readonly #job: OpenJob;
  readonly #address: ReadAddress;
  #draft: DraftState<ReadingOnPad> | null = $state.raw(null);
  /** Touched before the draft is back from the disk: no touch is lost for being quick. */
  #early: Partial<ReadingOnPad> | null = $state.raw(null);
  #fault: SaveFault | null = $state.raw(null);
  #kept: Kept | null = $state.raw(null);
  #busy = $state(false);
  /** The value that was ten times off when Save was touched, and has been asked about. */
  #asked: string | null = $state(null);

  readonly on = $derived.by(() => onPad(this.#address.what, this.#job.state.units, this.pad));
  readonly judged = $derived.by(() =>
    this.on.is === 'said' ? judgeSaid(this.#address.what, this.on.said, this.#job.state.limits, this.pad.scale ?? null) : null,
  );
  readonly last = $derived.by(() => lastOf(this.#job.state.readings, this.#address.what, this.pad.scale));

  constructor(job: OpenJob, address: ReadAddress) {
    this.#job = job;
    this.#address = address;
    const kept = job.state.readings.find(({ id }) => id === address.kept);
    if (kept !== undefined)
      this.#kept = { id: kept.id, said: kept.said, utc: kept.utc, offsetMin: kept.offsetMin, withPhoto: kept.shot !== null };
  }

  get pad() {
    return this.#draft?.now ?? { ...EMPTY_PAD, ...this.#early };
  }
  get fault() {
    return this.#fault;
  }
  get kept() {
    return this.#kept;
  }
  /** Whether Save asks once more whether the value is meant. */
  get asking() {
    return this.#asked !== null && this.#asked === this.#value;
  }
  get canSave() {
    return this.on.is === 'said' && !this.#busy && !spotTooLong(this.pad);
  }

  /**
   * Brings back what was on the pad. Asked for something else than it was opened for then, what is asked for takes the place of what
   * stood there; opened for the same again, a coat or surface changed by hand stays. `only` is the one surface there is.
   */
  async open(drafts: Drafts, only: string | null): Promise<void> {
    const { what, run, coat, attempt, shot } = this.#address;
    const surface = this.#address.surface ?? only;
    const asked = JSON.stringify([run?.id, surface, coat, attempt, shot]);
    const opened = new DraftState(drafts, ['reading', this.#job.id, what], ReadingOnPad, { ...EMPTY_PAD });
    await opened.restore();
    if (opened.now.asked !== asked) {
      await opened.set({
        asked,
        ...(surface === null ? {} : { surface }),
        coat: coat ?? undefined,
        attempt: attempt ?? undefined,
        water: attempt === null || what !== 'flood-level' ? undefined : 'test',
        ...(shot === null ? {} : { shot, fromPhoto: true }),
      });
    }
    if (this.#early !== null) void opened.set(overRestored(this.#early));
    this.#draft = opened;
  }

  change(next: Partial<ReadingOnPad>): void {
    this.#kept = null;
    if (this.#draft === null) this.#early = { ...this.#early, ...next };
    else void this.#draft.set(next);
  }

  /** Keeps the reading. One ten times off the last is asked about first, once. */
  async save(): Promise<void> {
    const { on, last } = this;
    const draft = this.#draft;
    if (on.is !== 'said' || draft === null || !this.canSave) return;
    if (last !== null && isTenfold(on.said, last.said) && !this.asking) {
      this.#asked = this.#value;
      return;
    }
    const { pad } = this;
    if (!(await this.#add(on.said, pad, null))) return;
    this.#asked = null;
    // Not one after the other: what is typed in between is written after both.
    await Promise.all([draft.set(afterKept(pad)), draft.drop()]);
  }

  /** Keeps a value that was spoken, at the coat and surface that were said or stand on the pad. What is typed there stays. Answers its entry. */
  async keepSpoken(said: Reading['said'], where: Pick<ReadingOnPad, 'coat' | 'surface'>, spoken: Spoken): Promise<string | null> {
    if (where.surface !== this.pad.surface || where.coat !== this.pad.coat) this.change(where);
    return this.#add(said, { ...this.pad, ...where, fromPhoto: undefined }, spoken);
  }

  /** Takes a reading back that was just kept. */
  async takeBack(id: string): Promise<boolean> {
    const done = await this.#job.add([{ kind: 'withdrawal', refs: [id], data: { of: id, why: '' } }]);
    this.#fault = done.ok ? null : done.fault;
    if (done.ok) this.#kept = null;
    return done.ok;
  }

  async #add(said: Reading['said'], pad: ReadingOnPad, spoken: Spoken | null): Promise<string | null> {
    this.#busy = true;
    const { refs, data, ...draft } = readingDraft(this.#address.what, said, pad, this.#address.run?.id ?? null);
    const clip = spoken === null ? [] : [spoken.clip];
    const done = await this.#job.add([{ ...draft, refs: [...(refs ?? []), ...clip], data: { ...data, ...spoken } } as Draft]);
    this.#busy = false;
    this.#fault = done.ok ? null : done.fault;
    if (!done.ok) return null;
    const { id, times } = done.value.at(-1)!.body;
    this.#kept = { id, said, utc: times.utc, offsetMin: times.offsetMin, withPhoto: pad.shot !== undefined };
    return id;
  }

  get #value() {
    return this.on.is === 'said' ? `${this.on.said.value} ${this.on.said.unit}` : null;
  }
}
