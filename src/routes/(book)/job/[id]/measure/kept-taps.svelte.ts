import type { Shape } from '#lib/record/drafts.ts';
import type { Key } from '#lib/record/shelf.ts';
import { desk } from '#lib/state/desk.svelte.ts';
import { DraftState } from '#lib/state/draft.svelte.ts';
import { untrack } from 'svelte';

/** What is tapped in a photo, by whichever task. */
interface Tapped<T> {
  /** Null while there is nothing to lose. */
  readonly tapped: T | null;
  restore(stored: T): void;
}

/** Keeps every tap on disk until its value is confirmed: a killed page loses none. Called while a component is made; answers how to begin. */
export function keepTaps<T extends object>(task: Tapped<T>, key: Key, shape: Shape<T>): () => Promise<void> {
  let draft: DraftState<T | null> | null = $state.raw(null);
  $effect(() => {
    const [now, on] = [task.tapped, draft];
    // The draft's own state is written here, not followed.
    if (on !== null) untrack(() => void (now === null ? on.drop() : on.set(now)));
  });
  return async () => {
    const { drafts } = await desk.open();
    const opened = new DraftState<T | null>(drafts, key, shape, null);
    if ((await opened.restore()) && opened.now !== null) task.restore(opened.now);
    draft = opened;
  };
}
