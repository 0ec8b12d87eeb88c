import { begunBy, firstTyped, type Asked } from '#lib/job/form-offers.ts';
import { amendedData, formDraft, listOf, typedOf, type FormFault } from '#lib/job/form-drafts.ts';
import { dayOf } from '#lib/job/conditions.ts';
import { fieldsOf, type FormKind } from '#lib/job/forms.ts';
import type { Line } from '#lib/job/state.ts';
import type { Blob256, SaveFault } from '#lib/record/book.ts';
import { sha256Hex } from '#lib/record/hash.ts';
import type { Draft } from '#lib/record/kinds.ts';
import type { Unit } from '#lib/record/kinds/reading.ts';
import type { Picture } from '#lib/record/kinds/setup.ts';
import { EMPTY_FORM, TypedForm } from '#lib/record/typed-form.ts';
import { desk } from '#lib/state/desk.svelte.ts';
import { DraftState } from '#lib/state/draft.svelte.ts';
import type { OpenJob } from '#lib/state/job.svelte.ts';
import { strokesPng } from '#lib/ui/form/strokes.ts';

/** An entry just kept from a form, and the clocks that started with it. */
export interface Written {
  readonly id: string;
  readonly utc: string;
  readonly offsetMin: number;
  readonly clocks: number;
}

/** A form being filled in: on disk at each change, until it is an entry, or an amendment of `amends`. */
export class Typing {
  readonly kind: FormKind;
  /** The line it amends as it stood when the page was opened. */
  readonly amends: Line | null;
  readonly unitsSaid: Readonly<Record<string, Unit>>;
  readonly #job: OpenJob;
  readonly #asked: Asked;
  readonly #run: string | null;
  #draft: DraftState<TypedForm> | null = $state.raw(null);
  #faults: readonly FormFault[] = $state.raw([]);
  #fault: SaveFault | null = $state.raw(null);
  #written: Written | null = $state.raw(null);
  #busy = $state(false);

  constructor(job: OpenJob, kind: FormKind, asked: Asked, run: string | null, amends: Line | null) {
    this.kind = kind;
    this.amends = amends;
    this.#job = job;
    this.#asked = asked;
    this.#run = run;
    this.unitsSaid = amends === null ? {} : typedOf(kind, dataOf(amends)).unitsSaid;
  }

  get form() {
    return this.#draft?.now ?? EMPTY_FORM;
  }
  get open() {
    return this.#draft !== null;
  }
  get onDisk() {
    return this.#draft?.onDisk ?? true;
  }
  get faults() {
    return this.#faults;
  }
  get fault() {
    return this.#fault;
  }
  get written() {
    return this.#written;
  }
  get busy() {
    return this.#busy;
  }

  /** Under whose name a new entry would stand; null where nobody has said whose phone this is. */
  get name(): string | null {
    return this.#job.state.people[this.#job.person] ?? null;
  }

  /** Brings back what was typed; what a link asks for stands in place of what was there before. */
  async restore(): Promise<void> {
    const { drafts } = await desk.open();
    const first = this.#first();
    const opened = new DraftState(drafts, ['write', this.#job.id, this.amends?.entry.body.id ?? this.kind], TypedForm, first);
    const found = await opened.restore();
    if (found && this.amends === null) {
      const linked = Object.entries(first.values).filter(([name, value]) => this.#isLinked(name) && listOf(value).length > 0);
      if (linked.length > 0) await opened.set({ values: { ...opened.now.values, ...Object.fromEntries(linked) } });
    }
    this.#draft = opened;
  }

  /** The line it amends as it stands by now: an amendment kept from this page is one of those that the next decides between. */
  get #line(): Line | null {
    const id = this.amends?.entry.body.id;
    return this.#job.state.lines.find(({ entry }) => entry.body.id === id) ?? this.amends;
  }

  #isLinked(name: string): boolean {
    const field = new Map(fieldsOf(this.kind)).get(name);
    const { surfaces, about, step } = this.#asked;
    if (field?.type === 'surfaces') return surfaces.length > 0;
    return field?.type === 'entry' || field?.type === 'entries' ? about.length > 0 : (name === 'step' || name === 'test') && step !== null;
  }

  #first(): TypedForm {
    const line = this.#line;
    if (line !== null) return { ...EMPTY_FORM, values: mutable(typedOf(this.kind, dataOf(line)).typed) };
    const { typed, from } = firstTyped(this.kind, this.#job.state, this.#asked, this.#job.now());
    return { ...EMPTY_FORM, values: mutable(typed), from };
  }

  change(name: string, value: string | string[]): void {
    this.#set({ values: { ...this.form.values, [name]: value } });
  }
  reason(why: string): void {
    this.#set({ why });
  }
  /** Nothing carried over: the values are measured now. */
  clearCarried(names: readonly string[]): void {
    this.#set({ values: { ...this.form.values, ...Object.fromEntries(names.map((name) => [name, ''])) }, from: null });
  }

  #set(change: Partial<TypedForm>): void {
    this.#written = null;
    void this.#draft?.set(change);
    // Only the complaints are looked at again, and only once there are some: nobody is corrected while typing.
    if (this.#faults.length > 0) this.#read({});
  }

  /** Whose name it is: that of whoever holds this phone, or of the person whose name is amended. */
  get #person(): string {
    const said = this.#line === null ? undefined : dataOf(this.#line)['person'];
    return typeof said === 'string' ? said : this.#job.person;
  }

  #read(pictures: Readonly<Record<string, Picture>>): Draft | null {
    const { values, from } = this.form;
    const around = {
      units: this.#job.state.units,
      today: dayOf(this.#job.now()),
      pictures,
      unitsSaid: this.unitsSaid,
      from: this.#stillCarried(from),
      run: this.#run,
      person: this.#person,
      named: this.#line !== null || this.name !== null,
    };
    const read = formDraft(this.kind, values, around);
    this.#faults = read.ok ? [] : read.fault;
    return read.ok ? read.value : null;
  }

  /** The entry values were carried over from, while any of them still stands as it was. */
  #stillCarried(from: string | null): string | null {
    const last = this.#job.state.facts.conditions.find(({ id }) => id === from);
    const line = this.#line;
    if (last === undefined) return line === null ? null : ((dataOf(line)['from'] as string | undefined) ?? null);
    return (['air', 'humidity', 'surface'] as const).some(
      (name) => last.data[name]?.value !== undefined && last.data[name].value === this.form.values[name],
    )
      ? from
      : null;
  }

  /** Keeps what the form says; answers false when something stands in the way, with all that was typed still there. */
  async save(): Promise<boolean> {
    // A second tap on save: nothing was typed since, and what is kept is not to be kept or found fault with again.
    if (this.#written !== null) return true;
    if (this.#read({}) === null || this.#busy) return false;
    this.#busy = true;
    const { pictures, blobs } = await drawn(this.kind, this.form);
    const draft = this.#read(pictures);
    const line = this.#line;
    const drafts =
      draft === null
        ? []
        : line === null
          ? [draft, ...begunBy(draft, this.#job.state, this.#job.now().utc)]
          : [this.#amendment(line, draft)];
    const done = await this.#job.add(drafts, blobs);
    this.#busy = false;
    this.#fault = done.ok ? null : done.fault;
    if (!done.ok) return false;
    const kept = done.value[done.value.length - drafts.length]!.body;
    this.#written = { id: kept.id, utc: kept.times.utc, offsetMin: kept.times.offsetMin, clocks: drafts.length - 1 };
    await this.#draft?.set(this.#first());
    await this.#draft?.drop();
    return true;
  }

  /** It decides between the amendments that stand now, by naming them. */
  #amendment({ entry, standing }: Line, said: Draft): Draft {
    const { id, data } = entry.body;
    const refs = [...new Set([id, ...standing.amendments, ...(said.refs ?? [])])];
    return {
      kind: 'amendment',
      refs,
      data: { of: id, data: amendedData(this.kind, data, said.data), why: this.form.why.trim().toWellFormed() },
    };
  }
}

/** What the entry says now, or first said while amendments cross. */
function dataOf({ entry, standing: { view } }: Line): Readonly<Record<string, unknown>> {
  return view.kind === 'unknown' ? entry.body.data : view.data;
}

function mutable(typed: Readonly<Record<string, string | readonly string[]>>): TypedForm['values'] {
  return Object.fromEntries(Object.entries(typed).map(([name, value]) => [name, typeof value === 'string' ? value : [...value]]));
}

async function drawn(kind: FormKind, form: TypedForm): Promise<{ pictures: Record<string, Picture>; blobs: Blob256[] }> {
  const pictures: Record<string, Picture> = {};
  const blobs: Blob256[] = [];
  for (const [name, field] of fieldsOf(kind)) {
    const strokes = listOf(form.values[name]);
    if (field.type !== 'signature' || strokes.length === 0) continue;
    const body = await strokesPng(strokes);
    const bytes = new Uint8Array(await body.arrayBuffer());
    const sha256 = sha256Hex(bytes);
    pictures[name] = { sha256, bytes: bytes.length, type: 'image/png' };
    blobs.push({ sha256, body: new Blob([bytes], { type: 'image/png' }) });
  }
  return { pictures, blobs };
}
