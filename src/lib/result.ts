/** The one result type of the project: the caller must look before it takes the value. */
export type Result<T, F> = { readonly ok: true; readonly value: T } | { readonly ok: false; readonly fault: F };

export function ok<T>(value: T): { ok: true; value: T } {
  return { ok: true, value };
}

export function fail<F>(fault: F): { ok: false; fault: F } {
  return { ok: false, fault };
}
