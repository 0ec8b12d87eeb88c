import { deviceIdentity } from '#lib/device/identity.ts';
import { loss, remember, remembered } from '#lib/device/store/canary.ts';
import { openIdbShelf, SCHEMA_VERSION } from '#lib/device/store/idb-shelf.ts';
import { askToKeep, persistence } from '#lib/device/store/persistence.ts';
import { deviceWriter } from '#lib/device/writer.ts';
import { append, seal, type Writer } from '#lib/record/append.ts';
import { Book } from '#lib/record/book.ts';
import { verifyChains } from '#lib/record/chain.ts';
import { sha256Hex } from '#lib/record/hash.ts';
import { known, type Draft } from '#lib/record/kinds.ts';
import { ShelfError, type Shelf } from '#lib/record/shelf.ts';
import { BOOK_CASES } from '../contract/book-contract.ts';
import { SHELF_CASES } from '../contract/shelf-contract.ts';

// The store's rooms alone in a blank page, driven from outside: what this module exports is called by store.spec.ts.

const JOB = 'job-1';

interface Phone {
  readonly shelf: Shelf;
  readonly book: Book;
  readonly writer: Writer;
}

let phone: Phone | null = null;
let superseded = 0;

function opened(): Phone {
  if (phone === null) throw new Error('open first');
  return phone;
}

/** Opens the store as the app does at its start. Answers who this device is, or why the store cannot be used. */
export async function open(store: string, version = SCHEMA_VERSION): Promise<{ device: string; publicKey: string | null } | string> {
  const shelf = openIdbShelf(
    store,
    {
      superseded: async () => {
        superseded += 1;
        await shelf.write(['drafts'], (tx) => tx.put('drafts', ['last words'], 'flushed'));
      },
    },
    version,
  );
  try {
    const identity = await deviceIdentity(shelf);
    phone = { shelf, book: new Book(shelf), writer: deviceWriter(identity) };
    return { device: identity.device, publicKey: identity.signer.publicKey };
  } catch (error) {
    if (error instanceof ShelfError) return error.code;
    throw error;
  }
}

/** Keeps one photo of random bytes: its SHA-256 once saved, or why it was not. */
export async function shoot(size: number): Promise<{ saved: string } | { notSaved: string }> {
  const bytes = new Uint8Array(size);
  for (let at = 0; at < size; at += 65_536) crypto.getRandomValues(bytes.subarray(at, at + 65_536));
  const sha256 = sha256Hex(bytes);
  const picture = { sha256, bytes: size, type: 'image/jpeg' };
  const { book, writer } = opened();
  const draft: Draft = { kind: 'shot', data: { picture, from: 'viewfinder', surface: null } };
  const done = await append(book, JOB, [draft], [{ sha256, body: new Blob([bytes], { type: 'image/jpeg' }) }], writer);
  if (done.ok) return { saved: sha256 };
  return { notSaved: done.fault.code === 'not-saved' ? done.fault.why : done.fault.code };
}

export async function note(name: string): Promise<boolean> {
  const { book, writer } = opened();
  return (await append(book, JOB, [personDraft(name, writer)], [], writer)).ok;
}

/** Appends so many entries as fast as it can; the hashes of those it was told are saved. */
export async function appendMany(name: string, count: number): Promise<string[]> {
  const { book, writer } = opened();
  const saved: string[] = [];
  for (let i = 0; i < count; i++) {
    const done = await append(book, JOB, [personDraft(`${name} ${i}`, writer)], [], writer);
    if (done.ok) saved.push(...done.value.map((entry) => entry.hash));
  }
  return saved;
}

/** The same, done wrong on purpose: strict and in one transaction, but the head is not compared there. */
export async function appendManyUnchecked(name: string, count: number): Promise<string[]> {
  const { shelf, book, writer } = opened();
  const saved: string[] = [];
  for (let i = 0; i < count; i++) {
    const [head, times] = [await book.head(JOB, writer.device), writer.now()];
    const entry = await seal(personDraft(`${name} ${i}`, writer), JOB, head, writer, times);
    const { job, device, seq } = entry.body;
    await shelf.write(['entries', 'heads'], async (tx) => {
      await tx.put('entries', [job, device, seq], entry.raw);
      await tx.put('heads', [job, device], { job, device, seq, hash: entry.hash, times });
    });
    saved.push(entry.hash);
  }
  return saved;
}

function personDraft(name: string, writer: Writer): Draft {
  return { kind: 'person', data: { person: writer.person, name } };
}

/** What the store holds: the log's hashes and kinds, what is wrong with its chains, and the photos whose bytes are whole. */
export async function stored() {
  const { shelf, book } = opened();
  const { entries, faults } = await book.log(JOB);
  const pictures: string[] = [];
  const half: number[] = [];
  for (const entry of entries) {
    const view = known(entry);
    if (view.kind !== 'shot') continue;
    const blob = await book.blob(view.data.picture.sha256);
    const sha256 = blob === null ? null : sha256Hex(new Uint8Array(await blob.arrayBuffer()));
    if (sha256 === view.data.picture.sha256) pictures.push(sha256);
    else half.push(entry.body.seq);
  }
  return {
    hashes: entries.map((entry) => entry.hash),
    kinds: entries.map((entry) => entry.body.kind),
    ids: entries.map((entry) => entry.body.id),
    findings: [...faults, ...verifyChains(entries)].map((finding) => finding.code),
    pictures,
    half,
    blobs: (await book.blobCount()).count,
    lastWords: (await shelf.read(['drafts'], (tx) => tx.get('drafts', ['last words']))) ?? null,
  };
}

export function supersededTimes(): number {
  return superseded;
}

/** Notes what the store holds, as after each saved entry. */
export async function noteHeld(store: string): Promise<void> {
  remember(store, await opened().book.held());
}

/** What the second memory says at a start. */
export async function lossAtStart(store: string) {
  return loss(remembered(store), await opened().book.held());
}

/** Whether the kept signing key can be read out by a script of this page. */
export async function keyCanBeReadOut(): Promise<boolean> {
  const kept = (await opened().shelf.read(['meta'], (tx) => tx.get('meta', ['identity']))) as { key: { sign: CryptoKey } };
  return crypto.subtle.exportKey('pkcs8', kept.key.sign).then(
    () => true,
    () => false,
  );
}

export { askToKeep, persistence };

/** Runs the contract of the shelf, or of the book on it, each case on a store of its own. */
export async function runContract(which: 'shelf' | 'book'): Promise<{ name: string; fault: string | null }[]> {
  const outcomes: { name: string; fault: string | null }[] = [];
  for (const [i, { name, run }] of (which === 'shelf' ? SHELF_CASES : BOOK_CASES).entries()) {
    const fault = await run(openIdbShelf(`${which}-${i}`, { superseded: () => undefined })).then(() => null, String);
    outcomes.push({ name, fault });
  }
  return outcomes;
}
