import { fail, ok, type Result } from '../result.ts';
import { chainsOf, namedFiles } from './archive.ts';
import type { Book, Head, SaveFault } from './book.ts';
import type { Entry } from './entry.ts';

/** Why a log was not taken in: nothing of it was written, but for bytes that lie under their own hash. */
export type TakeInFault =
  | SaveFault
  /** Entry `seq` of this device is another one here: the two logs parted, and neither may take the place of the other. */
  | { code: 'forked'; device: string; seq: number };

/** What taking a log in would add, chain by chain. */
export interface Addition {
  readonly entries: readonly Entry[];
  /** Hashes of the files the log names that the book does not hold. */
  readonly files: readonly string[];
}

/** What a log, already verified, holds beyond the book's: each chain goes on where the book's ends. */
export async function additionOf(book: Book, log: readonly Entry[]): Promise<Result<Addition, TakeInFault>> {
  const job = log[0]?.body.job;
  const heads = new Map((job === undefined ? [] : await book.heads(job)).map((head) => [head.device, head]));
  const entries: Entry[] = [];
  for (const [device, chain] of chainsOf(log)) {
    const head = heads.get(device);
    const parted = head === undefined ? null : partedAt(head, chain, (await book.log(head.job)).entries);
    if (parted !== null) return fail({ code: 'forked', device, seq: parted });
    entries.push(...chain.slice(head === undefined ? 0 : head.seq + 1));
  }
  const files: string[] = [];
  for (const { sha256 } of namedFiles(log)) if ((await book.blob(sha256)) === null) files.push(sha256);
  return ok({ entries, files });
}

/** The first place where a chain and the book's are two, or null where one is the beginning of the other. */
function partedAt(head: Head, chain: readonly Entry[], held: readonly Entry[]): number | null {
  const mine = new Map(held.flatMap(({ body, hash }) => (body.device === head.device ? [[body.seq, hash] as const] : [])));
  return chain.find(({ body, hash }) => mine.has(body.seq) && mine.get(body.seq) !== hash)?.body.seq ?? null;
}

/**
 * Takes a verified log into the book: bytes first, each under its hash in a transaction of its own, then each chain's new entries in one
 * strict transaction that compares the head. So no entry is ever there before what it names, and doing it again after it was cut off
 * goes on where it ended. `blob` gives bytes by hash, null for what is not at hand. Resolves with how many entries were new.
 */
export async function takeIn(
  book: Book,
  log: readonly Entry[],
  blob: (sha256: string) => Promise<Blob | null>,
  progress: (done: number, of: number) => void = () => undefined,
): Promise<Result<number, TakeInFault>> {
  const addition = await additionOf(book, log);
  if (!addition.ok) return addition;
  const { entries, files } = addition.value;
  for (const [i, sha256] of files.entries()) {
    progress(i, files.length);
    const found = await blob(sha256);
    if (found === null) continue;
    // Made anew from bytes in memory: a slice of a file the person picked is gone when that file is.
    const kept = await book.keepBlob({ sha256, body: new Blob([await found.arrayBuffer()], { type: found.type }) });
    if (!kept.ok) return kept;
  }
  for (const [device, chain] of chainsOf(entries)) {
    const kept = await book.keep(chain, []);
    if (kept.ok) continue;
    if (kept.fault.code === 'head-moved') return fail({ code: 'forked', device, seq: kept.fault.head?.seq ?? 0 });
    return fail(kept.fault);
  }
  progress(files.length, files.length);
  return ok(entries.length);
}
