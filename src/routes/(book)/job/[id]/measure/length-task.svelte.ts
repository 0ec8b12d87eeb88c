import { isLapMeasure, lengthDraft, measuresInPhoto, tapAt, type LengthInPhoto, type PhotoOf } from '#lib/job/in-photo.ts';
import { judgeSaid } from '#lib/job/judged.ts';
import type { Shot } from '#lib/job/state.ts';
import type { LengthTaps } from '#lib/record/drafts.ts';
import type { Measure } from '#lib/record/kinds/reading.ts';
import type { OpenJob } from '#lib/state/job.svelte.ts';
import type { Measuring } from '#lib/state/measuring.svelte.ts';
import type { Line, Mark, Place } from '#lib/ui/photo/stage.ts';
import { CARD } from '#lib/vision/card.ts';
import type { LengthFault } from '#lib/vision/length.ts';
import { METHOD_VERSION } from '#lib/vision/method.ts';
import type { Reference } from '#lib/vision/reference.ts';
import * as m from '#lib/words/compiled/messages.js';
import { Keeping } from './keeping.svelte.ts';
import { photoOf } from './photo-of.ts';
import { Corners, NO_CORNERS, stored, type Tap } from './taps.svelte.ts';

type By = 'card' | 'rectangle';
/** A length in one photo: by what it is measured, its two ends, the value with its interval, and the way into the log. */
export class LengthTask {
  readonly #job: OpenJob;
  readonly #keeping: Keeping;
  readonly #shot: Shot;
  readonly #measuring: Measuring;
  readonly #surface: () => string | null;
  readonly #barMm: () => string | null;
  readonly corners: Corners;
  readonly measures: readonly Measure[];
  #what: Measure = $state('distance');
  #lap: 'both-edges' | 'lap-line' | null = $state(null);
  #by: By = $state('card');
  #ends: readonly [Tap | null, Tap | null] = $state.raw([null, null]);
  #found: Pick<LengthInPhoto, 'found' | 'mmPerPx'> | null = $state.raw(null);
  #refused: LengthFault | null = $state(null);
  #length: LengthInPhoto['length'] | null = $state.raw(null);
  /** Answers that come for what was asked before are thrown away. */
  #turn = 0;

  constructor(job: OpenJob, shot: Shot, measuring: Measuring, surface: () => string | null, barMm: () => string | null) {
    this.#job = job;
    this.#keeping = new Keeping(job);
    this.#shot = shot;
    this.#measuring = measuring;
    this.#surface = surface;
    this.#barMm = barMm;
    this.corners = new Corners(job.state.units);
    this.measures = measuresInPhoto(shot.step);
    this.#what = this.measures[0]!;
    // At the dry fit both edges show; in every other step somebody has to say so.
    this.#lap = shot.step === 'pre-cut' ? 'both-edges' : null;
  }

  get what() {
    return this.#what;
  }
  set what(what: Measure) {
    if (what !== this.#what) this.#keeping.changed();
    this.#what = what;
  }
  get lap() {
    return this.#lap;
  }
  set lap(lap: 'both-edges' | 'lap-line' | null) {
    this.#keeping.changed();
    this.#lap = lap;
  }
  get by() {
    return this.#by;
  }
  get found() {
    return this.#found;
  }
  get refused() {
    return this.#refused;
  }
  get length() {
    return this.#length;
  }
  get fault() {
    return this.#keeping.fault;
  }
  get kept() {
    return this.#keeping.kept;
  }

  readonly isLap = $derived.by(() => isLapMeasure(this.#what));
  readonly needsBar = $derived.by(() => this.#by === 'card' && this.#barMm() === null);
  /** The reading as it would be kept; null while something is missing. */
  readonly draft = $derived.by(() => {
    const reference = this.#reference;
    const [from, to] = this.#ends;
    if (reference === null || this.#found === null || this.#length === null || from === null || to === null) return null;
    const what = this.#what;
    const lap = this.isLap ? this.#lap : null;
    const of = this.#photo;
    if (of === null) return null;
    return lengthDraft(of, { what, lap, from: from.at, to: to.at, reference, ...this.#found, length: this.#length }, this.#job.state.units);
  });
  readonly judged = $derived.by(() => {
    if (this.draft === null) return null;
    const { what, said, photo } = this.draft.data;
    return judgeSaid(what, said, this.#job.state.limits, null, photo);
  });
  readonly canKeep = $derived.by(
    () => this.draft !== null && !this.#keeping.busy && this.kept === null && (!this.isLap || this.#lap !== null),
  );

  get marks(): Mark[] {
    const ends = this.#ends.map((tap, i): Mark => ({
      id: `end-${i}`,
      name: i === 0 ? m.mark_end_1() : m.mark_end_2(),
      at: tap?.at ?? null,
      look: 'cross',
      sharp: true,
      fine: tap?.fine ?? false,
    }));
    return this.#by === 'rectangle' ? [...this.corners.marks, ...ends] : ends;
  }
  get lines(): Line[] {
    const ends = this.#ends.flatMap((tap) => (tap === null ? [] : [tap.at]));
    return [
      ...(this.#found === null ? [] : [{ points: this.#found.found, closed: true, found: true }]),
      ...(this.#found === null && this.#by === 'rectangle' ? [{ points: this.corners.places, closed: false, found: false }] : []),
      ...(ends.length < 2 ? [] : [{ points: ends, closed: false, found: false }]),
    ];
  }
  /** What to do next, in one sentence; null once there is a value or a refusal. */
  get hint(): string | null {
    // Without what it is measured by, a tap would lead nowhere.
    if (this.needsBar || (this.#found === null && this.#refused !== null)) return null;
    if (this.#by === 'rectangle' && this.corners.hint !== null) return this.corners.hint;
    const next = this.#ends.findIndex((tap) => tap?.fine !== true);
    if (next < 0) return this.#asked === null ? m.type_sides() : null;
    if (this.#ends[next] !== null) return m.tap_sharp();
    if (!this.isLap) return next === 0 ? m.tap_from() : m.tap_to();
    return next === 0 ? m.tap_end_1() : m.tap_end_2();
  }

  /** What a killed page would lose; null while there is nothing, and once the value is kept. */
  get tapped(): LengthTaps | null {
    const corners = this.corners.tapped;
    const [from, to] = this.#ends;
    if (this.kept !== null || (corners === null && from === null && to === null)) return null;
    return {
      corners: corners ?? NO_CORNERS,
      ends: [from && stored(from), to && stored(to)],
      by: this.#by,
      lap: this.#lap,
      what: this.#what,
    };
  }

  restore({ corners, ends, by, lap, what }: LengthTaps): void {
    this.corners.restore(corners);
    [this.#ends, this.#by, this.#lap, this.#what] = [ends, by, lap, what];
  }

  /** Once the photo is open, and whenever what it is measured by has changed. */
  async look(): Promise<void> {
    const turn = ++this.#turn;
    [this.#found, this.#refused, this.#length] = [null, null, null];
    const reference = this.#asked;
    if (reference === null) return;
    const found = await this.#measuring.ask({ do: 'reference', reference });
    if (turn !== this.#turn || found === undefined) return;
    if (!found.ok) this.#refused = found.fault;
    else {
      this.#found = { found: found.value.corners, mmPerPx: found.value.mmPerPx };
      await this.#measure();
    }
  }

  surfaceChanged(): void {
    this.#keeping.changed();
  }

  measureBy(by: By): void {
    this.#keeping.changed();
    this.#by = by;
    void this.look();
  }

  /** The rectangle is the frame of this phone's card, as large as its bar says. */
  byFrame(): void {
    const barMm = this.#barMm();
    if (barMm === null) return;
    const typed = (mm: number) => {
      const paperMm = (mm * Number(barMm)) / CARD.bar.length;
      return this.#job.state.units === 'mm' ? String(Math.round(paperMm * 10) / 10) : (paperMm / 25.4).toFixed(3);
    };
    [this.corners.first, this.corners.second] = [typed(CARD.frame.width), typed(CARD.frame.height)];
    void this.look();
  }

  place(id: string, at: Place, fine: boolean): void {
    this.#keeping.changed();
    if (id.startsWith('corner-')) {
      this.corners.place(id, at, fine);
      void this.look();
      return;
    }
    this.#ends = this.#ends.map((tap, i) => (id === `end-${i}` ? { at: tapAt(at), fine: fine || (tap?.fine ?? false) } : tap)) as [
      Tap | null,
      Tap | null,
    ];
    void this.#measure();
  }

  /** The ends are taken away, for another length by the same card. */
  another(): void {
    this.#turn += 1;
    this.#ends = [null, null];
    this.#keeping.changed();
    [this.#length, this.#refused] = [null, null];
  }

  async #measure(): Promise<void> {
    const [from, to] = this.#ends;
    if (this.#found === null || from?.fine !== true || to?.fine !== true) return;
    const turn = ++this.#turn;
    const answer = await this.#measuring.ask({ do: 'length', segment: { from: from.at, to: to.at } });
    if (turn !== this.#turn || answer === undefined) return;
    this.#length = answer.ok ? answer.value : null;
    this.#refused = answer.ok ? null : answer.fault;
  }

  async keep(): Promise<void> {
    const { draft } = this;
    if (draft !== null && this.canKeep) await this.#keeping.keep(draft);
  }

  /** What it is measured by, as an entry keeps it; null while it is not whole. */
  get #reference(): LengthInPhoto['reference'] | null {
    if (this.#by === 'card') {
      const barMm = this.#barMm();
      return barMm === null ? null : { kind: 'card', barMm, tapped: null };
    }
    const { quad, widthMm, heightMm } = this.corners;
    return quad === null || widthMm === null || heightMm === null ? null : { kind: 'rectangle', widthMm, heightMm, tapped: quad };
  }
  get #asked(): Reference | null {
    const reference = this.#reference;
    if (reference === null) return null;
    if (reference.kind === 'card') return { kind: 'card', barMm: Number(reference.barMm) };
    const { widthMm, heightMm, tapped } = reference;
    return { kind: 'rectangle', widthMm: Number(widthMm), heightMm: Number(heightMm), corners: tapped };
  }
  get #photo(): PhotoOf | null {
    return photoOf(this.#job, this.#shot, this.#surface(), this.#measuring.photo, METHOD_VERSION);
  }
}
