import type { SetupFault } from '#lib/job/setup-fields.ts';
import type { Blob256, SaveFault } from '#lib/record/book.ts';
import type { Shape } from '#lib/record/drafts.ts';
import type { Draft } from '#lib/record/kinds.ts';
import { desk } from '#lib/state/desk.svelte.ts';
import { DraftState } from '#lib/state/draft.svelte.ts';
import type { OpenJob } from '#lib/state/job.svelte.ts';
import { setupFaultText } from '#lib/words/setup-fault.ts';
import { ok, type Result } from '#lib/result.ts';

/** What a page shows of its form besides the fields. */
export interface FormStand {
  readonly ready: boolean;
  readonly busy: boolean;
  readonly faults: number;
  readonly notKept: SaveFault | null;
  readonly restored: boolean;
  startOver: () => Promise<void>;
}

/** How a form begins, becomes entries and is kept. */
interface FormPlan<T> {
  /** Tells this form from every other on the disk: its job, its page, and the id of what it changes. */
  readonly key: readonly string[];
  readonly shape: Shape<T>;
  readonly first: (newId: () => string) => T;
  readonly drafts: (form: T, newId: () => string) => Result<Draft[], SetupFault[]>;
  readonly keep: (drafts: readonly Draft[], blobs: readonly Blob256[]) => Promise<Result<unknown, SaveFault>>;
}

/** A form of a job that is open. */
export function jobForm<T extends object>(job: OpenJob, { key, ...plan }: Omit<FormPlan<T>, 'keep'>): SetupForm<T> {
  return new SetupForm<T>({ ...plan, key: ['setup', job.id, ...key], keep: (drafts, blobs) => job.add(drafts, blobs) });
}

/** A form of the set-up: each change on disk at once, faults by field, saved in one append, and nothing lost when that fails. */
export class SetupForm<T extends object> implements FormStand {
  readonly #plan: FormPlan<T>;
  #draft = $state.raw<DraftState<T> | null>(null);
  #faults: readonly SetupFault[] = $state.raw([]);
  #notKept = $state.raw<SaveFault | null>(null);
  #restored = $state(false);
  #busy = $state(false);

  constructor(plan: FormPlan<T>) {
    this.#plan = plan;
  }

  /** The fields as typed; null until the disk has been asked. */
  get now(): T | null {
    return this.#draft?.now ?? null;
  }
  get ready() {
    return this.#draft !== null;
  }
  get busy() {
    return this.#busy;
  }
  get faults() {
    return this.#faults.length;
  }
  get notKept() {
    return this.#notKept;
  }
  /** What was typed before and not saved stands in the fields again. */
  get restored() {
    return this.#restored;
  }

  async open(): Promise<void> {
    const { drafts, writer } = await desk.open();
    const { key, shape, first } = this.#plan;
    const draft = new DraftState(drafts, key, shape, first(writer.newId));
    this.#restored = await draft.restore();
    this.#draft = draft;
  }

  async startOver(): Promise<void> {
    await this.#draft?.drop();
    this.#faults = [];
    await this.open();
  }

  set(change: Partial<T>): void {
    void this.#draft?.set(change);
    this.recheck();
  }

  /** Only the complaints are looked at again, and only once there are some: nobody is corrected while typing. */
  recheck(): void {
    if (this.#faults.length > 0) void this.#check();
  }

  errorOf(field: string): string | null {
    const fault = this.#faults.find((one) => one.field === field);
    return fault === undefined ? null : setupFaultText(fault.code);
  }

  async #check(): Promise<Draft[] | null> {
    if (this.now === null) return null;
    const { writer } = await desk.open();
    const drafts = this.#plan.drafts(this.now, writer.newId);
    this.#faults = drafts.ok ? [] : drafts.fault;
    return drafts.ok ? drafts.value : null;
  }

  /** True once it is saved. Else the faults, or why the store did not take it, stand on the page and the fields as they were. */
  async save(blobs: readonly Blob256[] = []): Promise<boolean> {
    if (this.#busy) return false;
    this.#busy = true;
    try {
      const drafts = await this.#check();
      if (drafts === null) return false;
      const done = drafts.length === 0 ? ok(null) : await this.#plan.keep(drafts, blobs);
      this.#notKept = done.ok ? null : done.fault;
      if (!done.ok) return false;
      await this.#draft?.drop();
      this.#restored = false;
      return true;
    } finally {
      this.#busy = false;
    }
  }
}
