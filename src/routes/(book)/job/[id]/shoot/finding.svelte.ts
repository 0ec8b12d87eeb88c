import { Shooting as ShootingDraft } from '#lib/record/drafts.ts';
import { desk } from '#lib/state/desk.svelte.ts';
import { Finder } from '#lib/state/finder.svelte.ts';
import type { OpenJob } from '#lib/state/job.svelte.ts';
import { Shooting } from '#lib/state/shooting.svelte.ts';
import type { FinderAddress } from './address.ts';
import { Aim } from './aim.svelte.ts';
import { GoesWith } from './goes-with.svelte.ts';

/** The viewfinder's page from its opening to its end: what is aimed at, what is kept, and the note on disk that outlives the page. */
export class Finding {
  readonly finder = new Finder();
  readonly shooting: Shooting;
  readonly aim: Aim;
  readonly #job: OpenJob;
  readonly #address: FinderAddress;
  #goesWith: GoesWith | null = $state.raw(null);
  #shots = 0;

  constructor(job: OpenJob, address: FinderAddress) {
    this.#job = job;
    this.#address = address;
    this.shooting = new Shooting(job);
    this.aim = new Aim(address);
  }

  get goesWith() {
    return this.#goesWith;
  }
  /** The photo kept last on this page. */
  get last() {
    return this.shooting.news?.code === 'saved' ? this.shooting.news.shot : null;
  }
  /** Where the page goes once what it was opened for is kept; null where it stays. */
  get way() {
    return this.#goesWith?.way(this.shooting, this.last) ?? null;
  }

  /** Takes up what a page thrown away had noted, notes its own, and only then opens the camera. `only` is the one surface there is. */
  async begin(only: string | null): Promise<void> {
    await this.#takeUp(only).catch(() => undefined);
    await this.finder.start();
  }

  async #takeUp(only: string | null): Promise<void> {
    const { drafts } = await desk.open();
    const before = await drafts.get(['shooting'], ShootingDraft);
    if (before?.job === this.#job.id) this.aim.restore(before, this.#job.state);
    if (this.aim.surfaces.length === 0 && only !== null) this.aim.pickSurface(only);
    if (this.#address.reading !== null) {
      this.#goesWith = new GoesWith(this.#address.reading, this.#job, this.aim.run?.id ?? null, drafts);
      await this.#goesWith.open();
    }
    await this.#note();
  }

  /** Keeps pictures of one place; what goes with them goes with the first. */
  async keep(from: 'viewfinder' | 'file', pictures: readonly (() => Promise<Uint8Array<ArrayBuffer> | null>)[]): Promise<void> {
    const { place } = this.aim;
    for (const picture of pictures) {
      const bytes = await picture();
      if (bytes === null) continue;
      const taker = this.#goesWith?.taken === false ? this.#goesWith : null;
      this.aim.taken();
      const news = await this.shooting.keep(bytes, from, place, taker?.take() ?? null);
      if (news.code === 'refused') taker?.giveBack();
      if (news.code === 'saved') this.#shots += 1;
    }
    await this.#note().catch(() => undefined);
  }

  /** Does what a touch asked for, and notes it. */
  readonly touched = (act: () => void): void => {
    act();
    void this.#note().catch(() => undefined);
  };

  leave(): void {
    this.finder.leave();
    // Held pictures are not kept yet: the note stays, so that a page lost now still says so.
    if (this.shooting.held.length === 0) void desk.open().then(({ drafts }) => drafts.drop(['shooting']));
  }

  /** On disk before the camera opens: a page thrown away meanwhile comes back to this place. */
  async #note(): Promise<void> {
    const { drafts } = await desk.open();
    const { run, surfaces, shows, distance = null, pair } = this.aim.place;
    const of = { job: this.#job.id, jobName: this.#job.state.name, run, surface: surfaces[0] ?? null, shots: this.#shots };
    await drafts.put(['shooting'], { ...of, surfaces, shows, distance, pair });
  }
}
