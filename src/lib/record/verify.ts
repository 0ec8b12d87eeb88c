import { fail, ok, type Result } from '../result.ts';
import {
  archiveFolder,
  chainsOf,
  headValue,
  namedFiles,
  namedPath,
  payloadOxum,
  README,
  TAG,
  tagFiles,
  type MissingFile,
} from './archive.ts';
import { ARCHIVE_VERSIONS, archiveReadme, type ArchiveVersion } from './archive-readme.ts';
import {
  BAG_INFO,
  BAGIT_TXT,
  DECLARATION,
  linesOf,
  MANIFEST,
  parseManifest,
  parseTags,
  TAG_MANIFEST,
  tagValues,
  type Manifest,
  type Tag,
} from './bag.ts';
import { HARMLESS, verifyChains, type ChainFinding } from './chain.ts';
import { sameBytes, type Digest } from './digest.ts';
import { readEntry, type Entry } from './entry.ts';
import { sha256HexOfText } from './hash.ts';
import { known } from './kinds.ts';
import { deviceOfPath, hashOfPath, openBag, readMember, type Bag, type BagFault, type ReadFile } from './unpack.ts';
import type { ZipFault } from './zip-read.ts';
import { zipStored } from './zip-write.ts';

/**
 * as-written: the container is byte for byte what our writer makes of its content. rewritten: the content is whole, the
 * container is another program's. changed: something was changed, removed or added, each named. unreadable: not judged.
 */
export type Verdict = 'as-written' | 'rewritten' | 'changed' | 'unreadable';

export type Finding =
  | BagFault
  | ChainFinding
  /** Not the bytes that the manifest, its own name, or the format says. */
  | { code: 'changed-file'; file: string }
  /** Listed, or named by an entry, and not there. */
  | { code: 'missing-file'; file: string }
  /** There, and not listed. */
  | { code: 'extra-file'; file: string }
  /** Listed in the manifest, but no entry of the log names it. */
  | { code: 'unnamed-file'; file: string }
  /** Named by an entry and said to be absent when the archive was made. */
  | { code: 'not-held'; file: string }
  | { code: 'manifest-line'; file: string; line: number }
  /** Payload-Oxum and the count of what is there. */
  | { code: 'oxum-differs'; said: string; counted: string }
  | { code: 'entry-unreadable'; file: string; line: number }
  /** An entry of another job or device than its file is for, or out of order. */
  | { code: 'entry-misplaced'; file: string; line: number }
  /** bag-info.txt or a record names an entry as the last of a chain, and the log does not hold it there. */
  | { code: 'head-differs'; device: string; seq: number }
  | { code: 'newer-archive'; version: string };

/** Findings an archive may carry and still be whole: said, and no part of the verdict. */
const SAID_ONLY: ReadonlySet<Finding['code']> = new Set<Finding['code']>([...HARMLESS, 'not-held', 'newer-archive']);

export interface Verification {
  readonly verdict: Verdict;
  readonly job: string | null;
  readonly findings: readonly Finding[];
  readonly counts: {
    /** All files in it, the book's own lists of them too. */
    readonly files: number;
    /** Photos, sounds, papers and records: files named by what is in them. */
    readonly named: number;
    readonly bytes: number;
    readonly entries: number;
    /** Entries of a kind, or with data, that this version does not know: kept and hashed like any other. */
    readonly unknown: number;
  };
}

/** Checks an archive against itself: manifests, counts, log, signatures, files the log names, container. Of pictures no more than a piece is in memory. */
export async function verify(container: Blob): Promise<Verification> {
  const bag = await openBag(container);
  if (!bag.ok) return unreadable(bag.fault);
  const read = await readAll(bag.value);
  if (!read.ok) return unreadable(read.fault);
  const { files, damaged } = read.value;

  const tags = parseTags(files.get(BAG_INFO)?.text ?? '');
  const { entries, findings: lineFindings } = readLogs(tags, files);
  // What a log names, and where it ends, cannot be told of one that could not be read.
  const logsRead = damaged.every(({ file }) => deviceOfPath(file) === null);
  const findings = unrepeated([
    ...damaged,
    ...bag.value.elsewhere.map((file): Finding => ({ code: 'extra-file', file })),
    ...manifestFindings(bag.value, files),
    ...tagFindings(tags, bag.value, files),
    ...readmeFindings(tags, bag.value, files),
    ...lineFindings,
    ...verifyChains(entries),
    ...(logsRead ? [...headFindings(files.has(BAG_INFO) ? tags : null, entries), ...namedFindings(tags, bag.value, files, entries)] : []),
  ]);
  const whole = findings.every(({ code }) => SAID_ONLY.has(code));
  return {
    verdict: !whole ? 'changed' : (await isAsWritten(container, tags, files, entries)) ? 'as-written' : 'rewritten',
    job: entries[0]?.body.job ?? null,
    findings,
    counts: {
      files: files.size,
      named: [...files.keys()].filter((path) => hashOfPath(path) !== null).length,
      bytes: [...files.values()].reduce((sum, { digest }) => sum + digest.bytes, 0),
      entries: entries.length,
      unknown: entries.filter((entry) => known(entry).kind === 'unknown').length,
    },
  };
}

function unreadable(fault: BagFault): Verification {
  return { verdict: 'unreadable', job: null, findings: [fault], counts: { files: 0, named: 0, bytes: 0, entries: 0, unknown: 0 } };
}

const MISSING = /^([0-9a-f]{64}) (not-held|bytes-differ)$/;
const HEAD = /^([a-z0-9][a-z0-9-]{0,59}) (\d{1,15}) [0-9a-f]{64}$/;

type Files = ReadonlyMap<string, ReadFile>;
type Damaged = Extract<Finding, { code: 'damaged-file' }>;

/** Reads every file once. Damage stays with its file; a fault that means the container is hostile ends the reading. */
async function readAll(bag: Bag): Promise<Result<{ files: Files; damaged: Damaged[] }, ZipFault>> {
  const files = new Map<string, ReadFile>();
  const damaged: Damaged[] = [];
  for (const [path, member] of bag.files) {
    const read = await readMember(member, !path.startsWith('data/') || deviceOfPath(path) !== null);
    if (read.ok) files.set(path, read.value);
    else if (read.fault.code === 'damaged-file') damaged.push({ ...read.fault, file: path });
    else return fail(read.fault);
  }
  return ok({ files, damaged });
}

/** Both manifests against what is there: payload under data, tag files beside it. */
function manifestFindings(bag: Bag, files: Files): Finding[] {
  const isPayload = (path: string) => path.startsWith('data/');
  const isTag = (path: string) => !isPayload(path) && path !== TAG_MANIFEST;
  return [
    ...against(MANIFEST, [...bag.files.keys()].filter(isPayload), bag, files),
    ...against(TAG_MANIFEST, [...bag.files.keys()].filter(isTag), bag, files),
    ...[DECLARATION, BAG_INFO].flatMap((file): Finding[] => (bag.files.has(file) ? [] : [{ code: 'missing-file', file }])),
    ...[...files].flatMap(([file, { text, digest }]): Finding[] =>
      text === '' || sha256HexOfText(text) === digest.sha256 ? [] : [{ code: 'changed-file', file }],
    ),
    ...(files.has(DECLARATION) && files.get(DECLARATION)!.text !== BAGIT_TXT ? [{ code: 'changed-file' as const, file: DECLARATION }] : []),
  ];
}

function against(manifest: string, present: readonly string[], bag: Bag, files: Files): Finding[] {
  if (!bag.files.has(manifest)) return [{ code: 'missing-file', file: manifest }];
  const file = files.get(manifest);
  if (file === undefined) return [];
  const rows = parseManifest(file.text);
  if (!rows.ok) return [{ code: 'manifest-line', file: manifest, line: rows.fault.line }];
  return compared(rows.value, present, files);
}

function compared(rows: Manifest, present: readonly string[], files: Files): Finding[] {
  const there = new Set(present);
  const findings: Finding[] = [];
  for (const [file, sha256] of rows) {
    const digest = files.get(file)?.digest;
    if (!there.has(file)) findings.push({ code: 'missing-file', file });
    // Without a digest the file is damaged, and said to be.
    else if (digest !== undefined && digest.sha256 !== sha256) findings.push({ code: 'changed-file', file });
  }
  for (const file of present) if (!rows.has(file)) findings.push({ code: 'extra-file', file });
  return findings;
}

function tagFindings(tags: readonly Tag[], bag: Bag, files: Files): Finding[] {
  if (!files.has(BAG_INFO)) return [];
  const payload: Digest[] = [...files].filter(([path]) => path.startsWith('data/')).map(([, file]) => file.digest);
  const said = tagValues(tags, TAG.oxum)[0] ?? '';
  const counted = payloadOxum(payload);
  const version = tagValues(tags, TAG.version)[0];
  const ours = version !== undefined && tagValues(tags, TAG.job).length === 1 && tagValues(tags, TAG.head).every((head) => HEAD.test(head));
  return [
    ...(ours ? [] : [{ code: 'changed-file' as const, file: BAG_INFO }]),
    // A damaged file cannot be counted, and is said to be damaged.
    ...(said === counted || files.size < bag.files.size ? [] : [{ code: 'oxum-differs' as const, said, counted }]),
    ...(version === undefined || knownVersion(tags) !== null ? [] : [{ code: 'newer-archive' as const, version }]),
  ];
}

/** The readme tells people how to check, so its text belongs to the version of the archive. */
function readmeFindings(tags: readonly Tag[], bag: Bag, files: Files): Finding[] {
  const version = knownVersion(tags);
  if (version === null) return [];
  if (!bag.files.has(README)) return [{ code: 'missing-file', file: README }];
  const sha256 = files.get(README)?.digest.sha256;
  return sha256 === undefined || sha256 === sha256HexOfText(archiveReadme(version)) ? [] : [{ code: 'changed-file', file: README }];
}

/** The layout an archive says it has, if this version knows it. */
function knownVersion(tags: readonly Tag[]): ArchiveVersion | null {
  const said = tagValues(tags, TAG.version)[0];
  return ARCHIVE_VERSIONS.find((version) => version === said) ?? null;
}

function readLogs(tags: readonly Tag[], files: Files): { entries: Entry[]; findings: Finding[] } {
  const entries: Entry[] = [];
  const findings: Finding[] = [];
  const job = tagValues(tags, TAG.job)[0];
  for (const [file, { text }] of files) {
    const device = deviceOfPath(file);
    if (device === null) continue;
    let lastSeq = -1;
    for (const [i, raw] of linesOf(text).entries()) {
      const read = readEntry(raw, file);
      if (!read.ok) {
        findings.push({ code: 'entry-unreadable', file, line: i + 1 });
        continue;
      }
      const { body } = read.value;
      if (body.device !== device || body.job !== (job ?? body.job) || body.seq <= lastSeq)
        findings.push({ code: 'entry-misplaced', file, line: i + 1 });
      lastSeq = body.seq;
      entries.push(read.value);
    }
  }
  if (entries.length === 0) findings.push({ code: 'missing-file', file: 'data/log' });
  return { entries, findings };
}

/** The last entry of each chain as bag-info.txt says it (where that could be read), and as each record says it was made from. */
function headFindings(tags: readonly Tag[] | null, entries: readonly Entry[]): Finding[] {
  const at = new Map(entries.map((entry) => [`${entry.body.device} ${entry.body.seq}`, entry.hash]));
  const findings: Finding[] = entries
    .map(known)
    .flatMap((view) => (view.kind === 'record' ? view.data.heads : []))
    .filter(({ device, seq, hash }) => at.get(`${device} ${seq}`) !== hash)
    .map(({ device, seq }) => ({ code: 'head-differs', device, seq }));
  if (tags === null) return findings;
  const said = new Set(tagValues(tags, TAG.head));
  for (const [device, chain] of chainsOf(entries)) {
    const last = chain.at(-1)!;
    if (!said.delete(headValue(device, last))) findings.push({ code: 'head-differs', device, seq: last.body.seq });
  }
  for (const head of said) {
    const [, device, seq] = HEAD.exec(head) ?? [];
    if (device !== undefined) findings.push({ code: 'head-differs', device, seq: Number(seq) });
  }
  return findings;
}

/** Files named by their hash: each is what its name says, is named by an entry, and what an entry names is there or said to be absent. */
function namedFindings(tags: readonly Tag[], bag: Bag, files: Files, entries: readonly Entry[]): Finding[] {
  const findings: Finding[] = [];
  // An entry of an unknown kind may name files in a way of its own; the hash then stands somewhere in its text.
  const mentioned = new Set(entries.flatMap((entry) => entry.raw.match(/[0-9a-f]{64}/g) ?? []));
  const present = new Set([...bag.files.keys()].map(hashOfPath));
  const devices = new Set(entries.map((entry) => entry.body.device));
  for (const [file, { digest }] of files) {
    if (!file.startsWith('data/') || file === README) continue;
    const sha256 = hashOfPath(file);
    const device = deviceOfPath(file);
    if (sha256 !== null && digest.sha256 !== sha256) findings.push({ code: 'changed-file', file });
    if (sha256 === null ? device === null || !devices.has(device) : !mentioned.has(sha256)) findings.push({ code: 'unnamed-file', file });
  }
  const absent = new Set(tagValues(tags, TAG.missing).map((value) => value.split(' ')[0]!));
  for (const named of namedFiles(entries)) {
    if (present.has(named.sha256)) continue;
    findings.push({ code: absent.has(named.sha256) ? 'not-held' : 'missing-file', file: namedPath(named, 'image/jpeg') });
  }
  return findings;
}

/** Each finding once: a file may be missed by the manifest and by the log. */
function unrepeated(findings: readonly Finding[]): Finding[] {
  return [...new Map(findings.map((finding) => [JSON.stringify(finding), finding])).values()];
}

/** Writes the archive anew, tag files from the content and the rest as slices of the container at hand, and compares. */
async function isAsWritten(container: Blob, tags: readonly Tag[], files: Files, entries: readonly Entry[]): Promise<boolean> {
  const job = entries[0]!.body.job;
  // What a newer version writes it would write another way.
  const version = knownVersion(tags);
  if (version === null) return false;
  const date = tagValues(tags, TAG.date)[0] ?? '';
  const missing = tagValues(tags, TAG.missing).flatMap((value): MissingFile[] => {
    const [, sha256, why] = MISSING.exec(value) ?? [];
    return sha256 === undefined ? [] : [{ sha256, why: why as MissingFile['why'] }];
  });
  const payload = new Map([...files].filter(([path]) => path.startsWith('data/')).map(([path, { digest }]) => [path, digest]));
  const texts = tagFiles(version, job, date, chainsOf(entries), payload, missing);
  const parts = [];
  for (const [path, { text, slice, digest }] of files) {
    // A file that was compressed has no slice.
    if (slice === null || (texts.has(path) && texts.get(path) !== text)) return false;
    parts.push({ name: `${archiveFolder(job)}/${path}`, body: slice, crc32: digest.crc32 });
  }
  const again = zipStored(parts);
  return again.ok && (await sameBytes(again.value, container));
}
