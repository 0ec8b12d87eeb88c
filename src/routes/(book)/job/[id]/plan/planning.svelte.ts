import { firstPlan } from '#lib/job/drawing/plan-first.ts';
import { planDraft, planInput, type PlanInput } from '#lib/job/drawing/plan-input.ts';
import { keptPlan, keptWalls, rollWidth } from '#lib/job/drawing/laid.ts';
import { shapeOf, type RoomShape } from '#lib/job/drawing/shape.ts';
import { wallPlanDrafts, wallsInput } from '#lib/job/drawing/walls-input.ts';
import type { SetupFault } from '#lib/job/setup-fields.ts';
import type { SaveFault } from '#lib/record/book.ts';
import { canonicalText } from '#lib/record/canonical.ts';
import { PlanForm } from '#lib/record/drawing-drafts.ts';
import {
  frozen,
  readPlan,
  readWallsPlan,
  type NoSheets,
  type PlannedSheets,
  type PlannedWalls,
  type Remedy,
} from '#lib/record/plan-result.ts';
import { desk } from '#lib/state/desk.svelte.ts';
import { DraftState } from '#lib/state/draft.svelte.ts';
import type { OpenJob } from '#lib/state/job.svelte.ts';
import { plan, type PlanFault } from '#lib/state/planning.ts';

/** What is planned: the floor with its order of laying, or the walls. */
export type Planned = 'floor' | 'walls';

/** What came out of the planner: one of the last three is there. */
export interface Answer {
  readonly input: PlanInput;
  readonly result: object;
  readonly width: number;
  readonly floor: PlannedSheets | null;
  readonly walls: PlannedWalls | null;
  readonly none: NoSheets | null;
}

/** The form of a plan, on disk as it is typed; the planner at work; and what came out, until it is kept. */
export class Planning {
  readonly #job: OpenJob;
  readonly #room: string;
  readonly of: Planned;
  #draft = $state.raw<DraftState<PlanForm> | null>(null);
  #faults = $state.raw<readonly SetupFault[]>([]);
  #asked = 0;
  working = $state(false);
  answer = $state.raw<Answer | null>(null);
  fault = $state.raw<PlanFault | null>(null);
  notKept = $state.raw<SaveFault | null>(null);
  /** When the plan was kept, until something else is asked. */
  saved = $state.raw<{ readonly utc: string; readonly offsetMin: number } | null>(null);
  #keeping = false;

  constructor(job: OpenJob, room: string, of: Planned) {
    this.#job = job;
    this.#room = room;
    this.of = of;
  }

  readonly drawing = $derived.by(() => this.#job.state.drawings.find((one) => one.room === this.#room) ?? null);
  readonly shape = $derived.by(() => {
    const shape = this.drawing === null ? null : shapeOf(this.drawing.data);
    return shape?.ok === true ? shape.value : null;
  });
  readonly kept = $derived.by(() => keptPlan(this.#job.state, this.#room));
  readonly keptWalls = $derived.by(() => keptWalls(this.#job.state, this.#room));

  /** Whether the form asks what the kept plan answers: there is nothing to plan, and nothing to keep again. */
  readonly isKept = $derived.by(() => {
    const kept = this.of === 'walls' ? this.keptWalls : this.kept;
    if (kept === null || kept.isStale || this.now === null || this.shape === null) return false;
    const input = this.#input(this.now, this.shape);
    return input.ok && canonicalText(frozen(input.value)) === canonicalText(kept.fact.data.input);
  });

  get now(): PlanForm | null {
    return this.#draft?.now ?? null;
  }

  async open(): Promise<void> {
    const { drafts } = await desk.open();
    const key = ['plan', this.#job.id, this.#room];
    const floor = this.of === 'floor' ? null : await drafts.get(key, PlanForm).catch(() => null);
    const first = firstPlan(this.of, this.#job.state, this.#room, floor);
    const draft = new DraftState(drafts, this.of === 'floor' ? key : [...key, 'walls'], PlanForm, first);
    await draft.restore();
    this.#draft = draft;
  }

  #input(form: PlanForm, shape: RoomShape) {
    return this.of === 'walls' ? wallsInput(form, shape) : planInput(form, shape);
  }

  /** What was planned with other words is planned no more; a remedy taken stands until something else is changed. */
  set(change: Partial<PlanForm>): void {
    void this.#draft?.set({ taken: '', ...change });
    this.#asked += 1;
    this.working = false;
    this.answer = null;
    this.fault = null;
    this.saved = null;
    if (this.#faults.length > 0 && this.now !== null && this.shape !== null) {
      const read = this.#input(this.now, this.shape);
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
    const input = this.#input(now, shape);
    this.#faults = input.ok ? [] : input.fault;
    if (!input.ok) return;
    const turn = (this.#asked += 1);
    this.working = true;
    const planned = await plan(input.value);
    // Something was typed meanwhile: what came out answers another question.
    if (turn !== this.#asked) return;
    this.working = false;
    this.fault = planned.ok ? null : planned.fault;
    const width = rollWidth(input.value);
    this.answer = planned.ok && width !== null ? this.#read(input.value, planned.value, width) : null;
  }

  #read(input: PlanInput, result: object, width: number): Answer | null {
    if (this.of === 'floor') {
      const read = readPlan(frozen(result));
      return read === null ? null : { input, result, width, floor: read.sheets, walls: null, none: read.none };
    }
    const read = readWallsPlan(frozen(result));
    return read === null ? null : { input, result, width, floor: null, walls: read.sheets, none: read.none };
  }

  /** Keeps the plan in the log; true once it is saved. */
  async keep(): Promise<boolean> {
    const { answer, drawing } = this;
    if (answer === null || drawing === null || answer.none !== null || this.#keeping) return false;
    const { input, result } = answer;
    const drafts =
      this.of === 'walls' ? wallPlanDrafts(this.#room, drawing.id, input, result) : [planDraft(this.#room, drawing.id, input, result)];
    this.#keeping = true;
    const done = await this.#job.add(drafts);
    this.#keeping = false;
    this.notKept = done.ok ? null : done.fault;
    if (done.ok) {
      this.saved = done.value.at(-1)!.body.times;
      this.answer = null;
    }
    return done.ok;
  }
}
