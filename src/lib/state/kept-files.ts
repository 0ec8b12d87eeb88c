import { digestHex } from '#lib/device/capture/digest.ts';
import type { Blob256 } from '#lib/record/book.ts';
import type { Picture } from '#lib/record/kinds/setup.ts';
import { isPicture, sniff } from '#lib/record/media.ts';

/** A picked file whose bytes are in hand: what an entry names, and the bytes to keep with it. */
export interface ReadFile {
  readonly name: string;
  readonly picture: Picture;
  readonly blob: Blob256;
}

/** `unreadable`: the picker's file was gone before its bytes were read. */
export interface RefusedFile {
  readonly name: string;
  readonly why: 'not-a-page' | 'empty-file' | 'unreadable';
}

/**
 * Reads picked files to memory, tells them by their first bytes and hashes them: PDF, or photos of pages.
 * The bytes become a Blob of our own, as the picker's file may change or go before the store has read it.
 */
export async function readPages(files: readonly File[]): Promise<{ read: ReadFile[]; refused: RefusedFile[] }> {
  const read: ReadFile[] = [];
  const refused: RefusedFile[] = [];
  for (const file of files) {
    const bytes = await file.arrayBuffer().then(
      (buffer) => new Uint8Array(buffer),
      () => null,
    );
    const media = bytes === null ? null : sniff(bytes);
    if (bytes === null) refused.push({ name: file.name, why: 'unreadable' });
    else if (bytes.length === 0) refused.push({ name: file.name, why: 'empty-file' });
    else if (media === null || !(isPicture(media) || media.type === 'application/pdf'))
      refused.push({ name: file.name, why: 'not-a-page' });
    else {
      const sha256 = await digestHex(bytes);
      const picture = { sha256, bytes: bytes.length, type: media.type };
      read.push({ name: file.name, picture, blob: { sha256, body: new Blob([bytes], { type: media.type }) } });
    }
  }
  return { read, refused };
}
