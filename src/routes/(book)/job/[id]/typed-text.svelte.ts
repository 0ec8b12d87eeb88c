import type { Key } from '#lib/record/shelf.ts';
import { EMPTY_FORM, TypedForm } from '#lib/record/typed-form.ts';
import { desk } from '#lib/state/desk.svelte.ts';
import { DraftState } from '#lib/state/draft.svelte.ts';

/** A few fields of text, on disk at each change. */
export class TypedText {
  readonly #key: Key;
  /** Typed before the draft is back from the disk: laid over what comes back. */
  #early: TypedForm['values'] = $state.raw({});
  #draft: DraftState<TypedForm> | null = $state.raw(null);

  constructor(key: Key) {
    this.#key = key;
  }

  get values() {
    return this.#draft?.now.values ?? this.#early;
  }

  text(name: string): string {
    const value = this.values[name];
    return typeof value === 'string' ? value : '';
  }

  async restore(): Promise<void> {
    const { drafts } = await desk.open();
    const opened = new DraftState(drafts, this.#key, TypedForm, EMPTY_FORM);
    await opened.restore();
    if (Object.keys(this.#early).length > 0) void opened.set({ values: { ...opened.now.values, ...this.#early } });
    this.#draft = opened;
  }

  set(name: string, value: string): void {
    const values = { ...this.values, [name]: value };
    if (this.#draft === null) this.#early = values;
    else void this.#draft.set({ values });
  }

  async drop(): Promise<void> {
    await this.#draft?.set(EMPTY_FORM);
    await this.#draft?.drop();
  }
}
