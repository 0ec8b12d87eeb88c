import * as z from 'zod/mini';
import { fail, ok, type Result } from '../result.ts';
import { canonicalText } from './canonical.ts';
import { HASH_PATTERN, sha256HexOfText } from './hash.ts';

/** Version of the envelope and body below. Kinds grow by adding fields and kinds, never by changing this. */
export const ENTRY_VERSION = 1;

/** Ids become file names in the archive, so they are lower-case ASCII from the start. */
export const Id = z.string().check(z.regex(/^[a-z0-9][a-z0-9-]{0,59}$/));
export const Hash = z.string().check(z.regex(HASH_PATTERN));

/** Three of the four times of an entry; the fourth is its place in the chain. */
export const Times = z.looseObject({
  /** Wall clock of the phone, UTC, RFC 3339 with milliseconds. */
  utc: z.string().check(
    z.regex(/^\d{4}-\d\d-\d\dT\d\d:\d\d:\d\d\.\d{3}Z$/),
    z.refine((utc) => !Number.isNaN(Date.parse(utc))),
  ),
  /** Minutes east of UTC that the phone's clock showed. */
  offsetMin: z.int().check(z.minimum(-1440), z.maximum(1440)),
  /** IANA zone name as the phone gave it. */
  zone: z.string().check(z.maxLength(64)),
  /** Milliseconds of the phone's monotonic clock, comparable only within one session. */
  monoMs: z.int().check(z.minimum(0)),
  /** Id of the awake session the monotonic clock belongs to. */
  session: Id,
});
export type Times = z.infer<typeof Times>;

export const Body = z.looseObject({
  v: z.int().check(z.minimum(1)),
  kind: z.string().check(z.minLength(1), z.maxLength(60)),
  id: Id,
  job: Id,
  device: Id,
  seq: z.int().check(z.minimum(0)),
  /** Hash of the entry before it in the chain of this device and job; null for entry 0. */
  prev: z.nullable(Hash),
  /** The person who did or said this. */
  by: Id,
  run: z.optional(Id),
  refs: z.array(Id),
  times: Times,
  data: z.record(z.string(), z.unknown()),
});
export type Body = z.infer<typeof Body>;

/** Signature over the 32 bytes of the hash. `none` says so openly: the entry is kept and shown as unsigned. */
export const Signature = z.discriminatedUnion('alg', [
  z.looseObject({ alg: z.literal('ed25519'), hex: z.string().check(z.regex(/^[0-9a-f]{128}$/)) }),
  z.looseObject({ alg: z.literal('none') }),
]);
export type Signature = z.infer<typeof Signature>;

export const Envelope = z.looseObject({ body: Body, hash: Hash, sig: Signature });

/** A sealed entry: the raw text is what is kept and verified, the rest is a reading of it. */
export interface Entry {
  readonly raw: string;
  readonly body: Body;
  readonly hash: string;
  readonly sig: Signature;
}

export type EntryFault = { code: 'entry-not-json'; at: string } | { code: 'entry-shape'; at: string; field: string; message: string };

/** Longest raw entry accepted from outside, in UTF-16 units: a record's document tree fits many times over. */
export const RAW_MAX = 8_000_000;

/** Parses a raw entry, loosely: unknown fields and kinds survive. `at` says where it came from, for the fault. */
export function readEntry(raw: string, at: string): Result<Entry, EntryFault> {
  if (raw.length > RAW_MAX) return fail({ code: 'entry-shape', at, field: '$', message: `longer than ${RAW_MAX}` });
  // In the archive and on the wire an entry is one line.
  if (/[\n\r]/.test(raw)) return fail({ code: 'entry-shape', at, field: '$', message: 'more than one line' });
  let json: unknown;
  try {
    json = JSON.parse(raw);
  } catch {
    return fail({ code: 'entry-not-json', at });
  }
  const parsed = Envelope.safeParse(json);
  if (!parsed.success) {
    const issue = parsed.error.issues[0];
    return fail({ code: 'entry-shape', at, field: issue?.path.join('.') ?? '$', message: issue?.message ?? '' });
  }
  return ok({ raw, body: parsed.data.body, hash: parsed.data.hash, sig: parsed.data.sig });
}

/** SHA-256 over the RFC 8785 form of a body, lower-case hex. Throws on a body that may not be hashed. */
export function bodyHash(body: unknown): string {
  return sha256HexOfText(canonicalText(body));
}
