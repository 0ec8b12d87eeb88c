import { coverageDraft, missOf, MISSES_MAX, tapAt, transferDraft, type AreaInPhoto } from '#lib/job/in-photo.ts';
import type { Fact, Shot } from '#lib/job/state.ts';
import { edited } from '#lib/job/misses.ts';
import type { AreaTaps } from '#lib/record/drafts.ts';
import type { Draft } from '#lib/record/kinds.ts';
import type { Miss } from '#lib/record/kinds/photo.ts';
import type { OpenJob } from '#lib/state/job.svelte.ts';
import type { CoverageSeen, Measuring } from '#lib/state/measuring.svelte.ts';
import type { Mark, Place } from '#lib/ui/photo/stage.ts';
import type { CoverageFault } from '#lib/vision/coverage.ts';
import { invertHomography, project, type Homography } from '#lib/vision/homography.ts';
import { METHOD_VERSION } from '#lib/vision/method.ts';
import { compareSpots } from '#lib/vision/register.ts';
import { mapOf } from '#lib/vision/surface.ts';
import type { Transfer, TransferFault } from '#lib/vision/transfer.ts';
import * as m from '#lib/words/compiled/messages.js';
import { Keeping } from './keeping.svelte.ts';
import { photoOf } from './photo-of.ts';
import { Corners, NO_CORNERS } from './taps.svelte.ts';

type TaughtKind = AreaTaps['taught'][number]['kind'];
type TapKind = TaughtKind | 'miss';
/** A marked area of a surface in one photo: how much of it a coat covers, or mortar. */
export class AreaTask {
  readonly what: 'coverage' | 'transfer';
  readonly corners: Corners;
  readonly #job: OpenJob;
  readonly #keeping: Keeping;
  readonly #shot: Shot;
  readonly #measuring: Measuring;
  readonly #surface: () => string | null;
  #taps: readonly { readonly kind: TaughtKind; readonly at: Place }[] = $state.raw([]);
  #next: TapKind = $state('film');
  #coverage: CoverageSeen | null = $state.raw(null);
  #misses: readonly Miss[] = $state.raw([]);
  /** What was said of misses before the page was killed, for when they are found again. */
  #edits: readonly Miss[] = $state.raw([]);
  #transfer: Transfer | null = $state.raw(null);
  #refused: CoverageFault | TransferFault | null = $state(null);
  #before: string | null = $state(null);

  constructor(what: 'coverage' | 'transfer', job: OpenJob, shot: Shot, measuring: Measuring, surface: () => string | null) {
    this.what = what;
    this.#job = job;
    this.#keeping = new Keeping(job);
    this.#shot = shot;
    this.#measuring = measuring;
    this.#surface = surface;
    this.corners = new Corners(job.state.units);
    this.#next = what === 'coverage' ? 'film' : 'mortar';
  }

  get next() {
    return this.#next;
  }
  set next(kind: TapKind) {
    this.#next = kind;
  }
  get coverage() {
    return this.#coverage;
  }
  get misses() {
    return this.#misses;
  }
  get transfer() {
    return this.#transfer;
  }
  get refused() {
    return this.#refused;
  }
  get fault() {
    return this.#keeping.fault;
  }
  get kept() {
    return this.#keeping.kept;
  }
  get before() {
    return this.#before;
  }
  set before(id: string | null) {
    this.#keeping.corrected();
    this.#before = id;
  }

  /** Earlier photos of a coat here, with misses: what this one may be compared with. The latest first. */
  readonly earlier = $derived.by((): readonly Fact<'coverage'>[] =>
    this.what === 'coverage'
      ? this.#job.state.facts.coverage.filter(({ data }) => data.surface === this.#surface() && data.shot !== this.#shot.id).toReversed()
      : [],
  );
  readonly compared = $derived.by(() => {
    const earlier = this.earlier.find(({ id }) => id === this.#before);
    return earlier === undefined ? null : compareSpots(spots(earlier.data.misses), spots(this.#misses));
  });
  /** The area whole: its corners sharp and its sides typed. */
  readonly area = $derived.by(() => {
    const { quad, widthMm, heightMm } = this.corners;
    if (quad === null || widthMm === null || heightMm === null) return null;
    return { quad, widthMm: Number(widthMm), heightMm: Number(heightMm) };
  });
  readonly canMeasure = $derived.by(() => {
    const has = (kind: TapKind) => this.#taps.some((tap) => tap.kind === kind);
    const taught = this.what === 'coverage' ? has('film') && has('bare') : has('mortar') && has('sheet');
    return this.area !== null && taught && this.#measuring.step === null;
  });
  readonly draft = $derived.by((): Draft | null => {
    const { area } = this;
    const of = photoOf(this.#job, this.#shot, this.#surface(), this.#measuring.photo, METHOD_VERSION);
    if (area === null || of === null) return null;
    const marked = (mmPerPx: number): AreaInPhoto => ({
      corners: area.quad,
      widthMm: this.corners.widthMm!,
      heightMm: this.corners.heightMm!,
      mmPerPx,
    });
    if (this.#coverage !== null) {
      const found = { ...this.#coverage, film: this.#at('film'), bare: this.#at('bare'), misses: this.#misses };
      return coverageDraft(of, marked(this.#coverage.mmPerPx), found, this.#shot.coat, this.#before);
    }
    if (this.#transfer === null) return null;
    return transferDraft(of, marked(this.#transfer.mmPerPx), {
      ...this.#transfer,
      mortar: this.#at('mortar')[0]!,
      sheet: this.#at('sheet')[0]!,
    });
  });
  readonly canKeep = $derived.by(() => this.draft !== null && !this.#keeping.busy && this.kept === null);

  /** Whether anything was tapped as film, bare, mortar or sheet. */
  get taught() {
    return this.#taps.length > 0;
  }
  get marks(): Mark[] {
    const NAME = { film: m.mark_film, bare: m.mark_bare, mortar: m.mark_mortar, sheet: m.mark_sheet, miss: m.mark_miss };
    const look = (kind: TapKind) => (kind === 'film' || kind === 'mortar' ? 'disc' : 'ring');
    const taught = this.#taps.map(({ kind, at }, i): Mark => ({
      id: `tap-${i}`,
      name: NAME[kind](),
      at,
      look: look(kind),
      sharp: false,
      fine: true,
    }));
    const next: Mark = { id: 'next', name: NAME[this.#next](), at: null, look: look(this.#next), sharp: false, fine: false };
    // Mortar and sheet are taught by one tap each.
    const wanted = this.corners.quad !== null && (this.what === 'coverage' || this.#at(this.#next).length === 0);
    return [...this.corners.marks, ...taught, ...(wanted ? [next] : [])];
  }
  get lines() {
    return [{ points: this.corners.places, closed: this.corners.places.length === 4, found: false }];
  }
  /** The misses on the photo, in the order of the list beside it. */
  get rings() {
    const map = this.#map;
    if (map === null) return [];
    return this.#misses.map(({ x, y, diameter = '0', struck = false }, i) => {
      const at = project(map, [Number(x), Number(y)]);
      const edge = project(map, [Number(x) + Number(diameter) / 2, Number(y)]);
      return { n: i + 1, at, rx: Math.hypot(edge[0] - at[0], edge[1] - at[1]), struck };
    });
  }
  get hint(): string | null {
    if (this.corners.hint !== null) return this.corners.hint;
    if (this.#coverage !== null) return this.#next === 'miss' ? m.tap_miss() : null;
    if (this.#transfer !== null) return null;
    const has = (kind: TapKind) => this.#at(kind).length > 0;
    const sides = this.area === null ? m.type_sides() : null;
    if (this.what === 'transfer') return !has('mortar') ? m.tap_mortar() : !has('sheet') ? m.tap_sheet() : sides;
    if (has('film') && has('bare') && sides !== null) return sides;
    if (this.#next !== 'film') return m.tap_bare();
    return this.#at('film').length > 1 && !has('bare') ? m.tap_bare_next() : m.tap_film();
  }

  /** What a killed page would lose; null while there is nothing, and once the value is kept. */
  get tapped(): AreaTaps | null {
    const corners = this.corners.tapped;
    if (this.kept !== null || (corners === null && this.#taps.length === 0)) return null;
    const said = this.#misses.filter(({ added, struck }) => added === true || struck === true);
    return {
      corners: corners ?? NO_CORNERS,
      taught: this.#taps.map(({ kind, at: [x, y] }) => ({ kind, at: [x, y] })),
      before: this.#before,
      edits: [...(this.#coverage === null ? this.#edits : said)],
    };
  }

  restore({ corners, taught, before, edits }: AreaTaps): void {
    this.corners.restore(corners);
    [this.#taps, this.#before, this.#edits] = [taught, before, edits];
  }

  place(id: string, at: Place, fine: boolean): void {
    const next = this.#next;
    if (id === 'next' && next === 'miss') {
      this.#addMiss(at);
      return;
    }
    this.#keeping.changed();
    if (id === 'next' && next !== 'miss') {
      this.#taps = [...this.#taps, { kind: next, at: tapAt(at) }];
      if (next === 'mortar') this.#next = 'sheet';
    } else this.corners.place(id, at, fine);
    this.#forget();
  }

  /** A side was typed anew: what was measured is of the area as it was. */
  sidesChanged(): void {
    this.#keeping.changed();
    this.#forget();
  }
  /** What is compared with is of a surface. */
  surfaceChanged(): void {
    this.#keeping.corrected();
    this.#before = null;
  }

  /** Takes away the places that were taught. */
  clearTaps(): void {
    this.#keeping.changed();
    this.#taps = [];
    this.#next = this.what === 'coverage' ? 'film' : 'mortar';
    this.#forget();
  }

  async measure(): Promise<void> {
    const { area } = this;
    if (area === null || !this.canMeasure) return;
    const edits = this.#edits;
    this.#forget();
    if (this.what === 'coverage') {
      const points = { ...area, film: this.#at('film'), bare: this.#at('bare') };
      const found = await this.#measuring.ask({ do: 'coverage', points });
      if (found === undefined) return;
      if (!found.ok) this.#refused = found.fault;
      else {
        this.#coverage = found.value;
        this.#misses = edited(found.value.holidays.slice(0, MISSES_MAX).map(missOf), edits).slice(0, MISSES_MAX);
      }
    } else {
      const found = await this.#measuring.ask({
        do: 'transfer',
        points: { ...area, mortar: this.#at('mortar')[0]!, sheet: this.#at('sheet')[0]! },
      });
      if (found === undefined) return;
      if (!found.ok) this.#refused = found.fault;
      else this.#transfer = found.value;
    }
  }

  /** Strikes a miss out, or puts it back; both stay in the entry. One that was added by hand goes. */
  strike(n: number): void {
    this.#keeping.corrected();
    this.#misses = this.#misses.flatMap((miss, i): Miss[] => {
      if (i !== n - 1) return [miss];
      if (miss.added === true) return [];
      const { struck, ...rest } = miss;
      return [struck === true ? rest : { ...rest, struck: true }];
    });
  }

  async keep(): Promise<void> {
    const { draft } = this;
    if (draft !== null && this.canKeep) await this.#keeping.keep(draft);
  }

  #addMiss(at: Place): void {
    const map = this.#map;
    if (map === null || this.#misses.length >= MISSES_MAX) return;
    const [x, y] = project(invertHomography(map), at);
    // Beside the marked area nothing was measured, so nothing was missed there.
    if (x < 0 || y < 0 || x > this.area!.widthMm || y > this.area!.heightMm) return;
    this.#keeping.corrected();
    this.#misses = [...this.#misses, { x: x.toFixed(1), y: y.toFixed(1), kind: 'bare', added: true }];
  }

  #forget(): void {
    this.#coverage?.overlay?.close();
    [this.#coverage, this.#transfer, this.#refused, this.#misses, this.#edits] = [null, null, null, [], []];
    if (this.#next === 'miss') this.#next = 'bare';
  }

  #at(kind: TapKind): readonly Place[] {
    return this.#taps.filter((tap) => tap.kind === kind).map(({ at }) => at);
  }

  get #map(): Homography | null {
    return this.area === null ? null : mapOf(this.area);
  }
}

/** Misses as spots to compare: those that stand. */
function spots(misses: readonly Miss[]) {
  return misses
    .filter(({ struck }) => struck !== true)
    .map(({ x, y, diameter = '0', kind }) => ({ xMm: Number(x), yMm: Number(y), diameterMm: Number(diameter), areaMm2: 0, kind }));
}
