import canonicalize from 'canonicalize';

/**
 * The RFC 8785 form of a value, the text that is hashed.
 * Narrower than the RFC on purpose: only whole numbers a double holds exactly may be hashed, because a float printed by
 * another language is how two honest programs come to disagree about a hash ten years later. Measured values are decimal strings.
 * Throws TypeError naming the path of the first value that may not be hashed: that is our mistake, never the person's.
 */
export function canonicalText(value: unknown): string {
  refuseUnhashable(value, '$');
  const text = canonicalize(value);
  if (text === undefined) throw new TypeError('$: expected a JSON value, got undefined');
  return text;
}

function refuseUnhashable(value: unknown, path: string): void {
  switch (typeof value) {
    case 'string':
      if (!value.isWellFormed()) throw new TypeError(`${path}: expected well-formed text, got a lone surrogate`);
      return;
    case 'boolean':
      return;
    case 'number':
      if (!Number.isSafeInteger(value)) throw new TypeError(`${path}: expected a whole number, got ${value}`);
      return;
    case 'object':
      if (value === null) return;
      if (Array.isArray(value)) {
        value.forEach((item, i) => refuseUnhashable(item, `${path}[${i}]`));
        return;
      }
      for (const [key, item] of Object.entries(value)) {
        if (!key.isWellFormed()) throw new TypeError(`${path}: expected a well-formed key`);
        if (item !== undefined) refuseUnhashable(item, `${path}.${key}`);
      }
      return;
    default:
      throw new TypeError(`${path}: expected a JSON value, got ${typeof value}`);
  }
}
