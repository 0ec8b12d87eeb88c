/** A promise the store makes, checked the same way in Node and inside a real page: so no test runner is imported here. */
export interface Case<T> {
  readonly name: string;
  run(subject: T): Promise<void>;
}

/** Throws unless both are the same: bytes by content, everything else by its JSON form. */
export function same(got: unknown, expected: unknown): void {
  const [a, b] = [shown(got), shown(expected)];
  if (a !== b) throw new Error(`expected ${b.slice(0, 400)}\ngot      ${a.slice(0, 400)}`);
}

/** What a promise rejects with; throws when it does not. */
export async function rejection(promise: Promise<unknown>): Promise<unknown> {
  const outcome = await promise.then(
    (value) => ({ value }),
    (error: unknown) => ({ error }),
  );
  if ('error' in outcome) return outcome.error;
  throw new Error(`expected a rejection, got ${shown(outcome.value)}`);
}

function shown(value: unknown): string {
  return JSON.stringify(value, (_key, part: unknown) => (part instanceof Uint8Array ? `bytes ${[...part].join(' ')}` : part));
}
