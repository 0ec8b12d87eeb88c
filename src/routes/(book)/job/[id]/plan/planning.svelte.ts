import { EMPTY_PLAN, planDraft, planInput, type PlanInput } from '#lib/job/drawing/plan-input.ts';
import { keptPlan, rollWidth } from '#lib/job/drawing/laid.ts';
import { shapeOf } from '#lib/job/drawing/shape.ts';
import type { SetupFault } from '#lib/job/setup-fields.ts';
import type { SaveFault } from '#lib/record/book.ts';
import { PlanForm } from '#lib/record/drawing-drafts.ts';
import { frozen, readPlan, type ReadPlan, type Remedy } from '#lib/record/plan-result.ts';
import { desk } from '#lib/state/desk.svelte.ts';
import { DraftState } from '#lib/state/draft.svelte.ts';
import type { OpenJob } from '#lib/state/job.svelte.ts';
import { plan, type PlanFault } from '#lib/state/planning.ts';

/** What came out of the planner. */
export interface Answer {
  readonly input: PlanInput;
  readonly result: object;
  readonly view: ReadPlan;
  readonly width: number;
}

/** The form of a plan, on disk as it is typed; the planner at work; and what came out, until it is kept. */
export class Planning {
  readonly #job: OpenJob;
  readonly #room: string;
  #draft = $state.raw<DraftState<PlanForm> | null>(null);
  #faults = $state.raw<readonly SetupFault[]>([]);
  #asked = 0;
  working = $state(false);
  answer = $state.raw<Answer | null>(null);
  fault = $state.raw<PlanFault | null>(null);
  notKept = $state.raw<SaveFault | null>(null);

  constructor(job: OpenJob, room: string) {
    this.#job = job;
    this.#room = room;
  }

  readonly drawing = $derived.by(() => this.#job.state.drawings.find((one) => one.room === this.#room) ?? null);
  readonly shape = $derived.by(() => {
    const shape = this.drawing === null ? null : shapeOf(this.drawing.data);
    return shape?.ok === true ? shape.value : null;
  });
  readonly kept = $derived.by(() => keptPlan(this.#job.state, this.#room));

  get now(): PlanForm | null {
    return this.#draft?.now ?? null;
  }

  async open(): Promise<void> {
    const { drafts } = await desk.open();
    const draft = new DraftState(drafts, ['plan', this.#job.id, this.#room], PlanForm, EMPTY_PLAN);
    await draft.restore();
    this.#draft = draft;
  }

  /** What was planned with other words is planned no more; a remedy taken stands until something else is changed. */
  set(change: Partial<PlanForm>): void {
    void this.#draft?.set({ taken: '', ...change });
    this.#asked += 1;
    this.working = false;
    this.answer = null;
    this.fault = null;
    if (this.#faults.length > 0 && this.now !== null && this.shape !== null) {
      const read = planInput(this.now, this.shape);
      this.#faults = read.ok ? [] : read.fault;
    }
  }

  take(remedy: Remedy): Promise<void> {
    const change = Object.fromEntries(Object.entries(remedy).filter(([name]) => name !== 'kind' && name !== 'proven'));
    const before = this.now?.taken ?? '';
    const taken = { ...(before === '' ? {} : (JSON.parse(before) as object)), ...change };
    this.set({ taken: JSON.stringify(taken) });
    return this.plan();
  }

  faultOf(field: string): SetupFault['code'] | null {
    return this.#faults.find((one) => one.field === field)?.code ?? null;
  }
  get faults() {
    return this.#faults.length;
  }

  async plan(): Promise<void> {
    const { now, shape } = this;
    if (now === null || shape === null) return;
    const input = planInput(now, shape);
    this.#faults = input.ok ? [] : input.fault;
    if (!input.ok) return;
    const turn = (this.#asked += 1);
    this.working = true;
    const planned = await plan(input.value);
    // Something was typed meanwhile: what came out answers another question.
    if (turn !== this.#asked) return;
    this.working = false;
    this.fault = planned.ok ? null : planned.fault;
    const view = planned.ok ? readPlan(frozen(planned.value)) : null;
    const width = rollWidth(input.value);
    this.answer = planned.ok && view !== null && width !== null ? { input: input.value, result: planned.value, view, width } : null;
  }

  /** Keeps the plan in the log; true once it is saved. */
  async keep(): Promise<boolean> {
    const { answer, drawing } = this;
    if (answer === null || drawing === null || answer.view.sheets === null) return false;
    const done = await this.#job.add([planDraft(this.#room, drawing.id, answer.input, answer.result)]);
    this.notKept = done.ok ? null : done.fault;
    if (done.ok) this.answer = null;
    return done.ok;
  }
}
