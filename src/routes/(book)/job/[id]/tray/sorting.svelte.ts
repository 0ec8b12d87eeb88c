import type { Run } from '#lib/job/state.ts';
import { photosOwed, runsNear, tagDrafts, wouldAnswer, type PhotoOf } from '#lib/job/tray.ts';
import type { SaveFault } from '#lib/record/book.ts';
import { STEPS, type Step } from '#lib/record/kinds/setup.ts';
import type { OpenJob } from '#lib/state/job.svelte.ts';
import { toggled } from '#lib/ui/photo/picks.ts';

/** Photos just sorted. */
interface Tagged {
  readonly n: number;
  readonly utc: string;
  readonly offsetMin: number;
}

/** Photos taken up to be sorted, and what is said of all of them at once. */
export class Sorting {
  readonly #job: OpenJob;
  #chosen: readonly string[] = $state.raw([]);
  #surfaces: readonly string[] = $state.raw([]);
  #shows: readonly string[] = $state.raw([]);
  /** A run's id or a step's code, once touched; null where none is meant, undefined while the one offered stands. */
  #into: string | null | undefined = $state();
  #fault: SaveFault | null = $state.raw(null);
  #tagged: Tagged | null = $state.raw(null);
  #busy = $state(false);

  readonly #shots = $derived.by(() => this.#job.state.shots.filter(({ id }) => this.#chosen.includes(id)));
  /** The run open nearest in time to the photos comes first, and is the one offered. */
  readonly runs: readonly Run[] = $derived.by(() => runsNear(this.#job.state.runs, this.#shots, this.#job.now().utc));
  /** Steps of the job that nobody has begun. */
  readonly steps: readonly Step[] = $derived.by(() => {
    const owed = new Set(this.#job.layers.flatMap((layer) => layer.items.map((item) => item.rule.step)));
    return STEPS.filter((step) => owed.has(step) && !this.#job.state.runs.some((run) => run.step === step));
  });
  readonly into = $derived.by(() => (this.#into === undefined ? (this.runs[0]?.id ?? null) : this.#into));
  readonly #run = $derived.by(() => this.#job.state.runs.find(({ id }) => id === this.into) ?? null);
  readonly #of: PhotoOf = $derived.by(() => ({
    step: this.#run?.step ?? STEPS.find((step) => step === this.into) ?? null,
    surfaces: this.#surfaces,
    coat: this.#run?.coat ?? null,
  }));
  readonly offers = $derived.by(() => photosOwed(this.#job.layers, this.#of));
  readonly answers = $derived.by(() => wouldAnswer(this.#job.layers, this.#of, this.#shows));

  constructor(job: OpenJob) {
    this.#job = job;
  }

  get chosen() {
    return this.#chosen;
  }
  get surfaces() {
    return this.#surfaces;
  }
  get shows() {
    return this.#shows;
  }
  get fault() {
    return this.#fault;
  }
  get tagged() {
    return this.#tagged;
  }
  /** Something must be said before it is kept: a place, or what is shown. */
  get canTag() {
    return this.#chosen.length > 0 && this.#surfaces.length + this.#shows.length > 0 && !this.#busy;
  }

  /** Takes a photo up, or lays it back. The first one of those sorted already brings what was said of it. */
  choose(id: string): void {
    this.#tagged = null;
    const shot = this.#job.state.shots.find((one) => one.id === id);
    if (this.#chosen.length === 0 && shot?.sorted === true) {
      this.#surfaces = shot.surfaces;
      this.#shows = shot.shows;
      this.#into = shot.run ?? shot.step;
    }
    this.#chosen = toggled(this.#chosen, id);
    if (this.#chosen.length === 0) this.#begin();
  }

  /** All of a group; all of it laid back where it was taken up whole. */
  chooseAll(ids: readonly string[]): void {
    this.#tagged = null;
    const rest = this.#chosen.filter((id) => !ids.includes(id));
    this.#chosen = ids.every((id) => this.#chosen.includes(id)) ? rest : [...rest, ...ids];
    if (this.#chosen.length === 0) this.#begin();
  }

  pickSurface(id: string): void {
    this.#surfaces = toggled(this.#surfaces, id);
  }
  pickInto(id: string): void {
    this.#into = this.into === id ? null : id;
    this.#shows = [];
  }
  pickShows(rule: string): void {
    this.#shows = toggled(this.#shows, rule);
  }

  /** One entry for all of them. */
  async tag(): Promise<void> {
    if (!this.canTag) return;
    this.#busy = true;
    const said = { run: this.#run?.id ?? null, step: this.#of.step, surfaces: this.#surfaces, shows: this.#shows };
    const done = await this.#job.add(tagDrafts(this.#chosen, said));
    this.#busy = false;
    this.#fault = done.ok ? null : done.fault;
    if (!done.ok) return;
    const { utc, offsetMin } = done.value.at(-1)!.body.times;
    this.#tagged = { n: this.#chosen.length, utc, offsetMin };
    this.#begin();
  }

  #begin(): void {
    this.#chosen = [];
    this.#surfaces = [];
    this.#shows = [];
    this.#into = undefined;
  }
}
