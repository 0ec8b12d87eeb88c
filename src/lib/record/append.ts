import { hexToBytes } from '@noble/hashes/utils.js';
import { fail, ok, type Result } from '../result.ts';
import type { Blob256, Book, Head, SaveFault } from './book.ts';
import { canonicalText } from './canonical.ts';
import { ENTRY_VERSION, readEntry, type Entry, type Times } from './entry.ts';
import { sha256HexOfText } from './hash.ts';
import { known, type Draft } from './kinds.ts';
import { ShelfError } from './shelf.ts';
import type { Signer } from './sign.ts';

/** What this device brings to an entry. Time and chance are arguments, so a test replays a day exactly. */
export interface Writer {
  readonly device: string;
  readonly person: string;
  readonly signer: Signer;
  now: () => Times;
  newId: () => string;
}

/** Beyond this difference between wall clock and monotonic clock the clock was moved, not merely drifting (2 min). */
export const CLOCK_JUMP_MS = 120_000;

/** Pages racing for one chain lose at most one round to each append of the other; so many rounds mean something else is wrong. */
const ROUNDS = 200;

/** Seals a draft at a place in the chain: body, hash over its RFC 8785 form, signature over the 32 bytes of the hash. */
export async function seal(draft: Draft, job: string, head: Head | null, writer: Writer, times: Times): Promise<Entry> {
  const body = {
    v: ENTRY_VERSION,
    kind: draft.kind,
    id: draft.id ?? writer.newId(),
    job,
    device: writer.device,
    seq: head === null ? 0 : head.seq + 1,
    prev: head === null ? null : head.hash,
    by: writer.person,
    ...(draft.run === undefined ? {} : { run: draft.run }),
    refs: [...(draft.refs ?? [])],
    times,
    data: draft.data,
  };
  const text = canonicalText(body);
  const hash = sha256HexOfText(text);
  const hex = await writer.signer.sign(hexToBytes(hash));
  const sig = hex === null ? { alg: 'none' } : { alg: 'ed25519', hex };
  // The body is kept in its canonical form, so the kept text needs no second form for its own check.
  const raw = `{"body":${text},"hash":"${hash}","sig":${canonicalText(sig)}}`;
  const entry = readEntry(raw, 'seal');
  if (!entry.ok) throw new TypeError(`${draft.kind}: ${JSON.stringify(entry.fault)}`);
  if (known(entry.value).kind === 'unknown') throw new TypeError(`${draft.kind}: data does not fit its own schema`);
  return entry.value;
}

/**
 * Seals drafts onto this device's chain of a job and keeps them with their blobs in one transaction. When another page moved
 * the chain in between, nothing was written and the drafts are sealed anew on the new head. Entry 0 of a new chain (the
 * device and its key) and a clock-jump entry are put before them where they are due.
 * Faults: `not-saved` and `read-back` as from keep; the caller still holds the drafts and bytes.
 */
export async function append(
  book: Book,
  job: string,
  drafts: readonly Draft[],
  blobs: readonly Blob256[],
  writer: Writer,
): Promise<Result<Entry[], SaveFault>> {
  let head: Head | null;
  try {
    head = await book.lastSeen(job, writer.device);
  } catch (error) {
    if (error instanceof ShelfError) return fail({ code: 'not-saved', why: error.code, detail: error.message });
    throw error;
  }
  // Ids are fixed before the first try: sealing anew must not make another thing of the same draft.
  const fixed = drafts.map((draft) => ({ ...draft, id: draft.id ?? writer.newId() }));
  for (let round = 0; round < ROUNDS; round++) {
    const times = writer.now();
    const entries: Entry[] = [];
    let at = head;
    for (const draft of [...preamble(at, times, writer), ...fixed]) {
      const entry = await seal(draft, job, at, writer, times);
      entries.push(entry);
      at = { job, device: writer.device, seq: entry.body.seq, hash: entry.hash, times };
    }
    const kept = await book.keep(entries, blobs);
    if (kept.ok) return ok(entries);
    if (kept.fault.code !== 'head-moved') return fail(kept.fault);
    head = kept.fault.head;
  }
  return fail({ code: 'not-saved', why: 'failed', detail: `chain moved ${ROUNDS} times` });
}

function preamble(head: Head | null, times: Times, writer: Writer): Draft[] {
  if (head === null) {
    const { publicKey, whyNone } = writer.signer;
    const key = publicKey === null ? { alg: 'none' as const, why: whyNone ?? 'unknown' } : { alg: 'ed25519' as const, public: publicKey };
    return [{ kind: 'device', data: { key } }];
  }
  const jump = clockJump(head.times, times);
  return jump === null ? [] : [{ kind: 'clock-jump', data: jump }];
}

/**
 * The clock jump between two moments of one chain, or null. Within one session wall and monotonic clock must agree to 2 min;
 * across sessions only a wall clock that went back can be seen (a monotonic clock starts anew, and may stand still in sleep).
 */
export function clockJump(before: Times, after: Times): { wallDeltaMs: number; monoDeltaMs: number | null } | null {
  const wallDeltaMs = Date.parse(after.utc) - Date.parse(before.utc);
  if (before.session !== after.session) return wallDeltaMs < 0 ? { wallDeltaMs, monoDeltaMs: null } : null;
  const monoDeltaMs = after.monoMs - before.monoMs;
  // Two pages of one session may seal a moment apart and land the other way round; that is no jump.
  if (Math.abs(wallDeltaMs - monoDeltaMs) <= CLOCK_JUMP_MS) return null;
  return { wallDeltaMs, monoDeltaMs };
}
