import type { JobState, Run } from '#lib/job/state.ts';
import type { Shooting } from '#lib/record/drafts.ts';
import type { DISTANCES } from '#lib/record/kinds/work.ts';
import type { ShotPlace } from '#lib/state/shooting.svelte.ts';
import { pickedSurfaces, toggled } from '#lib/ui/photo/picks.ts';
import type { FinderAddress } from './address.ts';

type Distance = (typeof DISTANCES)[number];

/** What the next photo is said to be of. All of it may stay unsaid: the shutter waits for none of it. */
export class Aim {
  readonly run: Run | null;
  readonly #material: string | null;
  #surfaces: readonly string[] = $state.raw([]);
  #shows: readonly string[] = $state.raw([]);
  #distance: Distance | null = $state(null);
  #pair: string | null = $state(null);
  #touched = false;

  constructor({ run, surfaces, shows, pair, material }: FinderAddress) {
    this.run = run;
    this.#material = material;
    this.#surfaces = surfaces;
    this.#shows = shows;
    this.#pair = pair;
  }

  get surfaces() {
    return this.#surfaces;
  }
  get shows() {
    return this.#shows;
  }
  get distance() {
    return this.#distance;
  }
  get pair() {
    return this.#pair;
  }
  get place(): ShotPlace {
    return {
      run: this.run?.id ?? null,
      surfaces: this.#surfaces,
      shows: this.#shows,
      distance: this.#distance,
      pair: this.#pair,
      material: this.#material,
    };
  }

  /** As it was when a page that was thrown away noted it, if that page stood here; what the address asks for goes before it. */
  restore(draft: Shooting, job: JobState): void {
    if (draft.run !== (this.run?.id ?? null) || (draft.surface ?? null) !== (this.#surfaces[0] ?? null)) return;
    this.#surfaces = (draft.surfaces ?? this.#surfaces).filter((id) => job.surfaces.some(({ surface }) => surface === id));
    if (this.#shows.length === 0) this.#shows = draft.shows ?? [];
    this.#distance = draft.distance ?? null;
    if (this.#pair === null && job.shots.some(({ id }) => id === draft.pair)) this.#pair = draft.pair ?? null;
  }

  pickSurface(id: string): void {
    this.#surfaces = pickedSurfaces(this.#surfaces, id, this.#touched);
    this.#touched = true;
  }
  pickShows(rule: string): void {
    this.#shows = toggled(this.#shows, rule);
  }
  stand(distance: Distance | null): void {
    this.#distance = distance;
  }
  /** The next photo is of the same place as `shot`, or no longer; it stays with the surfaces of that one. */
  follow(shot: string | null, distance: Distance | null): void {
    this.#pair = shot;
    this.#distance = distance;
  }

  /** After the shutter: what was said of that one photo is not said of the next. The surfaces stay until another is touched. */
  taken(): void {
    this.#shows = [];
    this.#distance = null;
    this.#pair = null;
    this.#touched = false;
  }
}
