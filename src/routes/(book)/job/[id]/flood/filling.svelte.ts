import { attempts, withRun, type Attempt } from '#lib/job/flood.ts';
import { fillDraft, firstFill, planOf } from '#lib/job/flood-form.ts';
import type { FormFault } from '#lib/job/form-drafts.ts';
import type { SaveFault } from '#lib/record/book.ts';
import { EMPTY_FORM, TypedForm } from '#lib/record/typed-form.ts';
import { desk } from '#lib/state/desk.svelte.ts';
import { DraftState } from '#lib/state/draft.svelte.ts';
import type { OpenJob } from '#lib/state/job.svelte.ts';

/** The plan of an attempt, on disk at each change, until the water is in. */
export class Filling {
  readonly #job: OpenJob;
  /** The attempt it comes after, whose plan it takes over. */
  readonly after: Attempt | null;
  #draft: DraftState<TypedForm> | null = $state.raw(null);
  #faults: readonly FormFault[] = $state.raw([]);
  #fault: SaveFault | null = $state.raw(null);
  #busy = $state(false);

  readonly typed = $derived.by(() => (this.#draft?.now ?? EMPTY_FORM).values);
  readonly plan = $derived.by(() => planOf(this.typed, this.#job.state.units));

  constructor(job: OpenJob, after: string | null) {
    this.#job = job;
    this.after = attempts(job.state).find(({ id }) => id === after) ?? null;
  }

  get open() {
    return this.#draft !== null;
  }
  get faults() {
    return this.#faults;
  }
  get fault() {
    return this.#fault;
  }
  get busy() {
    return this.#busy;
  }

  async restore(): Promise<void> {
    const { drafts } = await desk.open();
    const first = Object.entries(firstFill(this.after, this.#job.state.units)).map(([name, value]) => [
      name,
      typeof value === 'string' ? value : [...value],
    ]);
    const opened = new DraftState(drafts, ['flood', this.#job.id, this.after?.id ?? 'first'], TypedForm, {
      ...EMPTY_FORM,
      values: Object.fromEntries(first) as TypedForm['values'],
    });
    await opened.restore();
    this.#draft = opened;
  }

  set(name: string, value: string | string[]): void {
    void this.#draft?.set({ values: { ...this.typed, [name]: value } });
    // Only the complaints are looked at again, and only once there are some: nobody is corrected while typing.
    if (this.#faults.length > 0) this.#read();
  }

  #read() {
    const read = fillDraft(this.typed, this.#job.state.units);
    this.#faults = read.ok ? [] : read.fault;
    return read.ok ? read.value : null;
  }

  /** The water is in: answers the attempt's id, or null when something stands in the way. */
  async fill(): Promise<string | null> {
    const draft = this.#read();
    if (draft === null || this.#busy) return null;
    this.#busy = true;
    const { writer } = await desk.open();
    const done = await this.#job.add(withRun(draft, this.#job.state, writer.newId()));
    this.#busy = false;
    this.#fault = done.ok ? null : done.fault;
    if (!done.ok) return null;
    await this.#draft?.drop();
    return done.value.at(-1)!.body.id;
  }
}
