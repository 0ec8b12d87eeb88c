/** A place in a record: keys and indexes from the outside in. */
export type Path = readonly (string | number)[];

/** Every place in `value` that holds something to spoil: numbers, lists and records. */
export function* places(value: unknown, path: Path = []): Generator<Path> {
  if (typeof value !== 'object' || value === null) return;
  for (const [key, one] of Object.entries(value)) {
    const here = [...path, Array.isArray(value) ? Number(key) : key];
    if (typeof one === 'number' || typeof one === 'object') yield here;
    yield* places(one, here);
  }
}

/** A copy of `value` with `bad` in one place. */
export function spoilt(value: unknown, [key, ...rest]: Path, bad: unknown): unknown {
  if (key === undefined) return bad;
  const copy = (Array.isArray(value) ? [...(value as unknown[])] : { ...(value as object) }) as Record<string | number, unknown>;
  copy[key] = spoilt(copy[key], rest, bad);
  return copy;
}

/** Every number in a result, at any depth. */
export function numbers(value: unknown): number[] {
  if (typeof value === 'number') return [value];
  return typeof value === 'object' && value !== null ? Object.values(value).flatMap(numbers) : [];
}

/** What stands in a place. */
export function standsAt(value: unknown, path: Path): unknown {
  return path.reduce((at: unknown, key) => (at as Record<string | number, unknown>)[key], value);
}

/** The name of a field, without its place in a list. */
export function fieldOf(path: Path): string {
  return String(path.findLast((key) => typeof key === 'string'));
}
