import { fail, ok, type Result } from '../result.ts';

export interface StoredFile {
  /** Path inside the ZIP; must match OWN_NAME. */
  readonly name: string;
  readonly body: Blob;
  /** CRC-32 of the body, from its Digest. */
  readonly crc32: number;
}

export type ZipWriteFault =
  { code: 'too-many-files'; count: number; max: number } | { code: 'archive-too-large'; bytes: number; max: number };

/**
 * Names we write and read: lower-case ASCII, so that no file system folds, normalises or reserves one into another.
 * A segment is at most 80 characters: a SHA-256 and its extension need 70.
 */
export const OWN_NAME = /^(?:[a-z0-9][a-z0-9-]{0,69}\/){0,4}[a-z0-9][a-z0-9-]{0,69}\.[a-z0-9]{1,9}$/;

/** One below what 16 bits count, and what 32 bits address: those two values mean "see ZIP64" (APPNOTE 4.4.1.4). */
export const MAX_FILES = 65_534;
export const MAX_BYTES = 2 ** 32 - 2;

const LOCAL_BYTES = 30;
const CENTRAL_BYTES = 46;
const END_BYTES = 22;
/** Version 1.0 of the format: stored files, no encryption, no ZIP64 (APPNOTE 4.4.3.2). */
const VERSION = 10;
/** 1980-01-01 in the DOS form (APPNOTE 4.4.6): when an archive was made stands in bag-info.txt, not in its container. */
const DOS_DATE = (1 << 5) | 1;

/**
 * A ZIP (APPNOTE 6.3) of stored files in order of name, made as a Blob of Blobs: bodies are referred to, never read or copied.
 * Sizes and CRC-32 stand in the local headers, so each file can be carved out of a damaged ZIP. Every other header field is
 * fixed: the same files give the same bytes. Throws on a name that is not ours or comes twice.
 */
export function zipStored(files: readonly StoredFile[]): Result<Blob, ZipWriteFault> {
  if (files.length > MAX_FILES) return fail({ code: 'too-many-files', count: files.length, max: MAX_FILES });
  const bytes = files.reduce((sum, { name, body }) => sum + LOCAL_BYTES + CENTRAL_BYTES + 2 * name.length + body.size, END_BYTES);
  if (bytes > MAX_BYTES) return fail({ code: 'archive-too-large', bytes, max: MAX_BYTES });

  const inOrder = [...files].sort((a, b) => (a.name < b.name ? -1 : 1));
  const parts: BlobPart[] = [];
  const central: BlobPart[] = [];
  let offset = 0;
  inOrder.forEach((file, i) => {
    if (!OWN_NAME.test(file.name)) throw new RangeError(`name: expected ${OWN_NAME}, got "${file.name}"`);
    if (inOrder[i - 1]?.name === file.name) throw new RangeError(`name: "${file.name}" twice`);
    parts.push(localHeader(file), file.body);
    central.push(centralHeader(file, offset));
    offset += LOCAL_BYTES + file.name.length + file.body.size;
  });
  return ok(new Blob([...parts, ...central, endRecord(files.length, bytes - END_BYTES - offset, offset)], { type: 'application/zip' }));
}

/** APPNOTE 4.3.7. */
function localHeader(file: StoredFile): Uint8Array<ArrayBuffer> {
  const header = new Fields(LOCAL_BYTES + file.name.length);
  header.u32(0x04034b50);
  sharedFields(header, file);
  header.ascii(file.name);
  return header.bytes;
}

/** APPNOTE 4.3.12. */
function centralHeader(file: StoredFile, offset: number): Uint8Array<ArrayBuffer> {
  const header = new Fields(CENTRAL_BYTES + file.name.length);
  header.u32(0x02014b50);
  header.u16(VERSION); // made by, host MS-DOS: no owner, no mode
  sharedFields(header, file);
  header.u16(0); // comment length
  header.u16(0); // disk
  header.u16(0); // internal attributes
  header.u32(0); // external attributes
  header.u32(offset);
  header.ascii(file.name);
  return header.bytes;
}

/** The fields both headers share, in their order. */
function sharedFields(header: Fields, file: StoredFile): void {
  header.u16(VERSION); // needed to extract
  header.u16(0); // flags: no encryption, sizes here, name in ASCII
  header.u16(0); // method: stored
  header.u16(0); // time
  header.u16(DOS_DATE);
  header.u32(file.crc32);
  header.u32(file.body.size);
  header.u32(file.body.size);
  header.u16(file.name.length);
  header.u16(0); // extra field length
}

/** APPNOTE 4.3.16. */
function endRecord(count: number, centralBytes: number, centralOffset: number): Uint8Array<ArrayBuffer> {
  const record = new Fields(END_BYTES);
  record.u32(0x06054b50);
  record.u16(0); // this disk
  record.u16(0); // disk of the central directory
  record.u16(count);
  record.u16(count);
  record.u32(centralBytes);
  record.u32(centralOffset);
  record.u16(0); // comment length
  return record.bytes;
}

/** Little-endian fields one after another. */
class Fields {
  readonly bytes: Uint8Array<ArrayBuffer>;
  readonly #view: DataView;
  #at = 0;

  constructor(length: number) {
    this.bytes = new Uint8Array(length);
    this.#view = new DataView(this.bytes.buffer);
  }

  u16(value: number): void {
    this.#view.setUint16(this.#at, value, true);
    this.#at += 2;
  }

  u32(value: number): void {
    this.#view.setUint32(this.#at, value, true);
    this.#at += 4;
  }

  ascii(text: string): void {
    for (let i = 0; i < text.length; i++) this.bytes[this.#at++] = text.charCodeAt(i);
  }
}
