import {
  ERR_OVERLAPPING_ENTRY,
  ZipReader,
  type Entry as ZipEntry,
  type FileEntry,
  type Reader,
} from '@zip.js/zip.js/lib/zip-core-reader.js';
import { fail, ok, type Result } from '../result.ts';
import { pieces } from './digest.ts';
import { MAX_BYTES, MAX_FILES, OWN_NAME } from './zip-write.ts';

/** Why a container, or one file of it, was not read. `file` is the name as the container gives it. */
export type ZipFault =
  /** No ZIP, or one cut short or ambiguous: two readers could see different files in it. */
  | { code: 'not-a-zip'; detail: string }
  /** A name that could leave its folder on some computer, or that two readers could read differently. */
  | { code: 'bad-name'; file: string }
  | { code: 'duplicate-name'; file: string }
  | { code: 'encrypted'; file: string }
  /** Two files share bytes of the container. */
  | { code: 'overlap'; file: string }
  | { code: 'too-many-files'; max: number }
  /** More bytes come out of this file, or of all files together, than `max`. */
  | { code: 'too-big'; file: string; max: number }
  /** This file's bytes cannot be brought out; others may be whole. */
  | { code: 'damaged-file'; file: string; detail: string };

export interface ZipCaps {
  readonly files: number;
  readonly fileBytes: number;
  readonly totalBytes: number;
}

/**
 * Caps for what comes out of the compressed files of a container of this size (what is stored cannot grow). Photographs do not shrink in a ZIP and a log shrinks about tenfold, so what comes out is
 * held to a hundredfold plus room for a small archive: a bomb is refused long before the largest archive would be.
 */
export function capsFor(containerBytes: number): ZipCaps {
  const totalBytes = Math.min(MAX_BYTES, 64 * 1024 * 1024 + 100 * containerBytes);
  return { files: MAX_FILES, fileBytes: Math.min(totalBytes, 1024 * 1024 * 1024), totalBytes };
}

export interface ZipMember {
  readonly name: string;
  /** Lies in the container as it is, not compressed. */
  readonly stored: boolean;
  /**
   * Hands over the file's bytes in order, piece by piece, counted against the caps as they come; an error thrown by `take`
   * is a fault of the file. Resolves with the file as a slice of the container when it is stored, else null.
   */
  read(take: (piece: Uint8Array) => void): Promise<Result<Blob | null, ZipFault>>;
}

export interface OpenZip {
  /** Files with names of ours, in the container's order. */
  readonly members: readonly ZipMember[];
  /** Harmless names that are not ours, links among them: told, never opened. Folders are left out. */
  readonly strangers: readonly string[];
}

/** Characters that break out of a folder or mean something to a file system: separators, drives, controls, bidirectional marks. */
const UNSAFE = /[\\:\u0000-\u001f\u007f-\u009f\u200e\u200f\u202a-\u202e\u2066-\u2069]/;

/** Opens a ZIP that may be hostile: reads its directory only. Nothing here touches a disk or follows a name. */
export async function openZip(container: Blob, caps: ZipCaps = capsFor(container.size)): Promise<Result<OpenZip, ZipFault>> {
  const reader = new ZipReader(reading(container), {
    useWebWorkers: false,
    strictness: 'strict',
    // Names are judged below, so that the fault can tell which one it was.
    filenameValidation: 'tolerant',
    // The old code page turns control characters into drawings; read as UTF-8 they stay what they are.
    decodeText: (bytes) => new TextDecoder().decode(bytes),
    // SHA-256 of the manifest decides whether bytes changed; a second, weaker opinion would only hide which file it was.
    checkCrc32: false,
    checkOverlappingEntry: true,
  });
  const seen = new Set<string>();
  const members: ZipMember[] = [];
  const strangers: string[] = [];
  const allowance = { left: caps.totalBytes };
  // Told before the first entry, so that a million of them are refused before they are read; no more come than are told.
  const told = { files: 0 };
  const onprogress = async (_done: number, files: number) => {
    told.files = files;
  };
  try {
    for await (const entry of reader.getEntriesGenerator({ onprogress })) {
      const file = entry.filename;
      if (told.files > caps.files) return fail({ code: 'too-many-files', max: caps.files });
      if (!isSafe(entry)) return fail({ code: 'bad-name', file });
      if (seen.has(file)) return fail({ code: 'duplicate-name', file });
      if (entry.encrypted) return fail({ code: 'encrypted', file });
      seen.add(file);
      if (entry.directory) continue;
      if (OWN_NAME.test(file) && !entry.symlink) members.push(member(entry, container, caps, allowance));
      else strangers.push(file);
    }
  } catch (error) {
    return fail({ code: 'not-a-zip', detail: detailOf(error) });
  }
  return ok({ members, strangers });
}

function isSafe(entry: ZipEntry): boolean {
  const name = entry.directory ? entry.filename.replace(/\/$/, '') : entry.filename;
  if (UNSAFE.test(name) || name.split('/').some((segment) => segment === '' || segment === '.' || segment === '..')) return false;
  // An extra field may give another name than the header does; one of ours is ASCII and must be what the header says.
  return !OWN_NAME.test(name) || String.fromCharCode(...entry.rawFilename) === name;
}

function member(entry: FileEntry, container: Blob, caps: ZipCaps, allowance: { left: number }): ZipMember {
  const file = entry.filename;
  let spent = 0;
  const faultOf = (error: unknown): ZipFault => {
    if (error instanceof TooBig) return { code: 'too-big', file, max: error.max };
    const detail = detailOf(error);
    return detail === ERR_OVERLAPPING_ENTRY ? { code: 'overlap', file } : { code: 'damaged-file', file, detail };
  };
  return {
    name: file,
    stored: entry.compressionMethod === 0,
    read: async (take) => {
      try {
        if (entry.compressionMethod === 0) {
          const slice = await storedSlice(entry, container);
          for await (const piece of pieces(slice)) take(piece);
          return ok(slice);
        }
        // A file read again counts once.
        allowance.left += spent;
        spent = 0;
        const max = Math.min(caps.fileBytes, allowance.left);
        const counted = (piece: Uint8Array) => {
          if (piece.length > max - spent) throw new TooBig(max);
          spent += piece.length;
          allowance.left -= piece.length;
          take(piece);
        };
        await entry.getData(new WritableStream({ write: counted }));
        return ok(null);
      } catch (error) {
        return fail(faultOf(error));
      }
    },
  };
}

/** Where a stored file lies in the container; its local header is checked against the directory on the way. */
async function storedSlice(entry: FileEntry, container: Blob): Promise<Blob> {
  if (entry.compressedSize !== entry.uncompressedSize) throw new Error('stored with two different sizes');
  await entry.getData(new WritableStream(), { checkOverlappingEntryOnly: true });
  const start = entry.localDirectory!.dataOffset;
  return container.slice(start, start + entry.compressedSize);
}

class TooBig extends Error {
  readonly max: number;
  constructor(max: number) {
    super('too big');
    this.max = max;
  }
}

function detailOf(error: unknown): string {
  if (!(error instanceof Error)) return String(error);
  return 'reason' in error ? `${error.message}: ${String(error.reason)}` : error.message;
}

/** The reader's own class for Blobs is in its full build, four times the bytes; this is all it asks of one. */
function reading(container: Blob): Reader<Blob> {
  const reader = {
    size: container.size,
    readUint8Array: async (offset: number, length: number) => new Uint8Array(await container.slice(offset, offset + length).arrayBuffer()),
    createReadable: ({ offset, size }: { offset: number; size: number }) => container.slice(offset, offset + size).stream(),
  };
  return reader as unknown as Reader<Blob>;
}
