import { fail, ok, type Result } from '../result.ts';
import { typeOfPath } from './archive.ts';
import { DECLARATION, linesOf, MANIFEST } from './bag.ts';
import { Digester, type Digest } from './digest.ts';
import { readEntry, type Entry, type EntryFault } from './entry.ts';
import { openZip, type ZipFault, type ZipMember } from './zip-read.ts';

export type BagFault =
  | ZipFault
  /** A sound ZIP, without one folder that holds a bag. */
  | { code: 'not-an-archive' };

/** A bag opened and not yet judged. */
export interface Bag {
  /** Files by their path inside the bag's one top folder. */
  readonly files: ReadonlyMap<string, ZipMember>;
  /** Files of the ZIP that lie elsewhere, or have a name we never give. */
  readonly elsewhere: readonly string[];
}

export async function openBag(container: Blob): Promise<Result<Bag, BagFault>> {
  const zip = await openZip(container);
  if (!zip.ok) return zip;
  const { members, strangers } = zip.value;
  const tops = new Set(
    members
      .map(({ name }) => name.split('/'))
      .flatMap(([top, file, more]) => (more === undefined && (file === DECLARATION || file === MANIFEST) ? [top!] : [])),
  );
  const [top] = tops;
  if (top === undefined || tops.size > 1) return fail({ code: 'not-an-archive' });
  const inside = members.filter(({ name }) => name.startsWith(`${top}/`));
  const outside = members.filter(({ name }) => !name.startsWith(`${top}/`));
  return ok({
    files: new Map(inside.map((one) => [one.name.slice(top.length + 1), one])),
    elsewhere: [...strangers, ...outside.map(({ name }) => name)],
  });
}

/** Longest text file read into memory: the log of a job many times over. */
const TEXT_MAX = 128 * 1024 * 1024;

/** One file's digest, its text when asked for, and its slice of the container where it is stored. */
export interface ReadFile {
  readonly digest: Digest;
  /** '' when not asked for. Bytes that are no UTF-8 are replaced, so that what stands beside them can still be read. */
  readonly text: string;
  readonly slice: Blob | null;
}

/** Reads a file of a bag once, through. */
export async function readMember(member: ZipMember, wantsText: boolean): Promise<Result<ReadFile, ZipFault>> {
  const digester = new Digester();
  const decoder = new TextDecoder('utf-8', { ignoreBOM: true });
  const taken = { text: '', tooLong: false };
  const read = await member.read((piece) => {
    digester.take(piece);
    if (!wantsText) return;
    taken.tooLong ||= taken.text.length + piece.length > TEXT_MAX;
    if (!taken.tooLong) taken.text += decoder.decode(piece, { stream: true });
  });
  if (!read.ok) return read;
  if (taken.tooLong) return fail({ code: 'too-big', file: member.name, max: TEXT_MAX });
  return ok({ digest: digester.done(), text: taken.text + decoder.decode(), slice: read.value });
}

const LOG = /^data\/log\/([a-z0-9][a-z0-9-]{0,59})\.jsonl$/;
const NAMED = /^data\/[a-z]+\/([0-9a-f]{64})\.[a-z0-9]+$/;

/** The device whose log lies at this path, or null. */
export function deviceOfPath(path: string): string | null {
  return LOG.exec(path)?.[1] ?? null;
}

/** The SHA-256 a payload file is named by, or null. */
export function hashOfPath(path: string): string | null {
  return NAMED.exec(path)?.[1] ?? null;
}

export interface Unpacked {
  readonly entries: readonly Entry[];
  /** Bytes by SHA-256, null when the archive does not carry them. */
  readonly blob: (sha256: string) => Promise<Blob | null>;
}

/**
 * The content of an archive, for a report or an import: every entry, and bytes on demand, one file at a time. It judges
 * nothing: `verify` comes first, and what it finds decides whether this is used. Bytes that are not what their name says are
 * null here too.
 */
export async function unpack(container: Blob): Promise<Result<Unpacked, BagFault | EntryFault>> {
  const bag = await openBag(container);
  if (!bag.ok) return bag;
  const entries: Entry[] = [];
  const named = new Map<string, { path: string; member: ZipMember }>();
  for (const [path, member] of bag.value.files) {
    const sha256 = hashOfPath(path);
    if (sha256 !== null) named.set(sha256, { path, member });
    if (deviceOfPath(path) === null) continue;
    const read = await readMember(member, true);
    if (!read.ok) return read;
    for (const [i, line] of linesOf(read.value.text).entries()) {
      const entry = readEntry(line, `${path} line ${i + 1}`);
      if (!entry.ok) return entry;
      entries.push(entry.value);
    }
  }
  return ok({
    entries,
    blob: async (sha256) => {
      const file = named.get(sha256);
      return file === undefined ? null : bytesOf(file.member, sha256, typeOfPath(file.path));
    },
  });
}

/** A stored file as a slice of the container, a compressed one inflated into memory. */
async function bytesOf(member: ZipMember, sha256: string, type: string): Promise<Blob | null> {
  const digester = new Digester();
  const inflated: BlobPart[] = [];
  const read = await member.read((piece) => {
    digester.take(piece);
    if (!member.stored) inflated.push(piece.slice());
  });
  if (!read.ok || digester.done().sha256 !== sha256) return null;
  return read.value === null ? new Blob(inflated, { type }) : read.value.slice(0, read.value.size, type);
}
