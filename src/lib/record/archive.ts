import { fail, ok, type Result } from '../result.ts';
import { ARCHIVE_VERSIONS, archiveReadme, type ArchiveVersion } from './archive-readme.ts';
import { BAG_INFO, BAGIT_TXT, DECLARATION, MANIFEST, TAG_MANIFEST, manifestText, tagText, type Tag } from './bag.ts';
import { digestOf, type Digest } from './digest.ts';
import { readEntry, type Entry, type EntryFault } from './entry.ts';
import { sha256HexOfText } from './hash.ts';
import { known, knownData, type Known } from './kinds.ts';
import { zipStored, type ZipWriteFault } from './zip-write.ts';

/** Version of the layout that is written, in bag-info.txt. The entries inside carry their own. */
const ARCHIVE_VERSION = ARCHIVE_VERSIONS.at(-1)!;

export const README = 'data/readme.txt';

/** Labels in bag-info.txt: of RFC 8493 2.2.2, and our own. */
export const TAG = {
  date: 'Bagging-Date',
  job: 'External-Identifier',
  oxum: 'Payload-Oxum',
  version: 'Layerbook-Archive',
  head: 'Layerbook-Head',
  missing: 'Layerbook-Missing',
} as const;

export interface ArchiveInput {
  /** Raw entries of one job, in any order. */
  readonly raws: readonly string[];
  /** Bytes by SHA-256, or null where this book does not hold them. */
  readonly blob: (sha256: string) => Promise<Blob | null>;
  /** Day the archive is made, YYYY-MM-DD. */
  readonly date: string;
}

/** Bytes the log names and the archive does not carry: not held here, or held and no longer what their name says. */
export interface MissingFile {
  readonly sha256: string;
  readonly why: 'not-held' | 'bytes-differ';
}

export interface Archive {
  /** File name to offer, `layerbook-JOB.zip`. */
  readonly name: string;
  readonly blob: Blob;
  readonly missing: readonly MissingFile[];
}

/**
 * The archive of a job: a BagIt bag (RFC 8493) in a ZIP of stored files. Log by device, one raw entry a line; pictures, sounds,
 * papers and records byte for byte under their SHA-256. Each Blob is streamed once and never held as a whole; the same log, bytes and
 * date give the same archive. What the log names and is not there is listed in bag-info.txt and in `missing`.
 * Faults: a raw entry that cannot be read, or more than one ZIP holds. Throws when the entries are of no job or of several.
 */
export async function buildArchive(input: ArchiveInput): Promise<Result<Archive, EntryFault | ZipWriteFault>> {
  const entries: Entry[] = [];
  for (const [i, raw] of input.raws.entries()) {
    const read = readEntry(raw, `entry ${i}`);
    if (!read.ok) return read;
    entries.push(read.value);
  }
  const job = entries[0]?.body.job;
  if (job === undefined || entries.some((entry) => entry.body.job !== job)) throw new RangeError('raws: expected entries of one job');

  const chains = chainsOf(entries);
  const payload = new Map<string, Blob>([[README, new Blob([archiveReadme(ARCHIVE_VERSION)])]]);
  for (const [device, chain] of chains) payload.set(logPath(device), new Blob(chain.map((entry) => `${entry.raw}\n`)));
  const digests = await digestAll(payload);

  const missing: MissingFile[] = [];
  for (const named of namedFiles(chains.flatMap(([, chain]) => chain))) {
    const body = await input.blob(named.sha256);
    const digest = body === null ? null : await digestOf(body);
    if (body === null || digest === null) missing.push({ sha256: named.sha256, why: 'not-held' });
    else if (digest.sha256 !== named.sha256) missing.push({ sha256: named.sha256, why: 'bytes-differ' });
    else {
      const path = namedPath(named, body.type);
      payload.set(path, body);
      digests.set(path, digest);
    }
  }

  const tags = new Map(
    [...tagFiles(ARCHIVE_VERSION, job, input.date, chains, digests, missing)].map(([path, text]) => [path, new Blob([text])]),
  );
  const tagDigests = await digestAll(tags);

  const top = archiveFolder(job);
  const files = [...payload, ...tags].map(([path, body]) => ({
    name: `${top}/${path}`,
    body,
    crc32: (digests.get(path) ?? tagDigests.get(path))!.crc32,
  }));
  const zip = zipStored(files);
  return zip.ok ? ok({ name: `${top}.zip`, blob: zip.value, missing }) : fail(zip.fault);
}

/** The one folder at the top of an archive. */
export function archiveFolder(job: string): string {
  return `layerbook-${job}`;
}

export function logPath(device: string): string {
  return `data/log/${device}.jsonl`;
}

/** Entries by device, devices in order of name, entries in order of the chain. */
export function chainsOf(entries: readonly Entry[]): [device: string, chain: Entry[]][] {
  return [...Map.groupBy(entries, (entry) => entry.body.device)]
    .sort(([a], [b]) => (a < b ? -1 : 1))
    .map(([device, chain]) => [device, [...chain].sort((a, b) => a.body.seq - b.body.seq)]);
}

/** Bytes an entry names by their hash. `type` is null where the entry does not say it. */
export interface NamedFile {
  readonly sha256: string;
  readonly folder: 'photos' | 'sounds' | 'papers' | 'records';
  readonly type: string | null;
}

/** Every file the entries name, each once, also those of what an amendment puts in an entry's place. What an unknown kind names cannot be told. */
export function namedFiles(entries: readonly Entry[]): NamedFile[] {
  const kinds = new Map(entries.map(({ body }) => [body.id, body.kind]));
  const views = entries.map(known).flatMap((view): Known[] => {
    const amended = view.kind === 'amendment' ? kinds.get(view.data.of) : undefined;
    return amended === undefined || view.kind !== 'amendment' ? [view] : [view, knownData(amended, view.data.data)];
  });
  const files = new Map<string, NamedFile>();
  for (const file of views.flatMap(filesOf)) if (!files.has(file.sha256)) files.set(file.sha256, file);
  return [...files.values()];
}

function filesOf(view: Known): NamedFile[] {
  const of = (folder: NamedFile['folder'], ...named: readonly { sha256: string; type: string | null }[]) =>
    named.map(({ sha256, type }): NamedFile => ({ sha256, folder, type }));
  switch (view.kind) {
    case 'shot':
      return of('photos', view.data.picture);
    case 'voice':
      return of('sounds', view.data.sound);
    case 'data-sheet':
      return of('papers', ...view.data.files);
    case 'hand-over':
    case 'attestation':
      return view.data.signature === undefined ? [] : of('papers', view.data.signature);
    case 'record':
      return [
        ...of('records', { sha256: view.data.pdf.sha256, type: 'application/pdf' }),
        ...of('photos', ...view.data.pictures.map((sha256) => ({ sha256, type: null }))),
      ];
    default:
      return [];
  }
}

const EXTENSIONS: Readonly<Record<string, string>> = {
  'image/jpeg': 'jpg',
  'image/png': 'png',
  'image/webp': 'webp',
  'image/heic': 'heic',
  'application/pdf': 'pdf',
  'audio/wav': 'wav',
};

/** Path of a named file; `held` is the type its bytes are kept with, for an entry that states none. */
export function namedPath(named: NamedFile, held: string): string {
  return `data/${named.folder}/${named.sha256}.${EXTENSIONS[named.type ?? held] ?? 'bin'}`;
}

/** The media type behind an extension of ours. */
export function typeOfPath(path: string): string {
  const extension = path.slice(path.lastIndexOf('.') + 1);
  return Object.entries(EXTENSIONS).find(([, one]) => one === extension)?.[0] ?? 'application/octet-stream';
}

/** RFC 8493 2.1.3: octets and number of payload files. */
export function payloadOxum(digests: Iterable<Digest>): string {
  let bytes = 0;
  let files = 0;
  for (const digest of digests) {
    bytes += digest.bytes;
    files += 1;
  }
  return `${bytes}.${files}`;
}

/** The text of every file beside the payload, by path: what they say follows from the payload and the log alone. */
export function tagFiles(
  version: ArchiveVersion,
  job: string,
  date: string,
  chains: readonly [string, Entry[]][],
  payload: ReadonlyMap<string, Digest>,
  missing: readonly MissingFile[],
): Map<string, string> {
  const info: Tag[] = [
    ['Bag-Software-Agent', 'Layerbook'],
    [TAG.date, date],
    [TAG.job, job],
    [TAG.oxum, payloadOxum(payload.values())],
    [TAG.version, version],
    ...chains.map(([device, chain]): Tag => [TAG.head, headValue(device, chain.at(-1)!)]),
    ...missing.map((file): Tag => [TAG.missing, `${file.sha256} ${file.why}`]),
  ];
  // Sorted by path: the manifest does not tell in what order the book gave its bytes.
  const rows = [...payload].map(([path, digest]): [string, string] => [path, digest.sha256]).sort(([a], [b]) => (a < b ? -1 : 1));
  const texts = new Map([
    [BAG_INFO, tagText(info)],
    [DECLARATION, BAGIT_TXT],
    [MANIFEST, manifestText(new Map(rows))],
  ]);
  const tagRows = new Map([...texts].map(([path, text]) => [path, sha256HexOfText(text)]));
  return texts.set(TAG_MANIFEST, manifestText(tagRows));
}

export function headValue(device: string, last: Entry): string {
  return `${device} ${last.body.seq} ${last.hash}`;
}

async function digestAll(files: ReadonlyMap<string, Blob>): Promise<Map<string, Digest>> {
  const digests = new Map<string, Digest>();
  for (const [path, body] of files) digests.set(path, await digestOf(body));
  return digests;
}
