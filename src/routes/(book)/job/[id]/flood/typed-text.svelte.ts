import type { Key } from '#lib/record/shelf.ts';
import { EMPTY_FORM, TypedForm } from '#lib/record/typed-form.ts';
import { desk } from '#lib/state/desk.svelte.ts';
import { DraftState } from '#lib/state/draft.svelte.ts';

/** A few fields of text, on disk at each change. */
export class TypedText {
  readonly #key: Key;
  #draft: DraftState<TypedForm> | null = $state.raw(null);

  constructor(key: Key) {
    this.#key = key;
  }

  get values() {
    return this.#draft?.now.values ?? EMPTY_FORM.values;
  }

  text(name: string): string {
    const value = this.values[name];
    return typeof value === 'string' ? value : '';
  }

  async restore(): Promise<void> {
    const { drafts } = await desk.open();
    const opened = new DraftState(drafts, this.#key, TypedForm, EMPTY_FORM);
    await opened.restore();
    this.#draft = opened;
  }

  set(name: string, value: string): void {
    void this.#draft?.set({ values: { ...this.values, [name]: value } });
  }

  async drop(): Promise<void> {
    await this.#draft?.set(EMPTY_FORM);
    await this.#draft?.drop();
  }
}
