import { readEntry, type Times } from '#lib/record/entry.ts';
import { sha256Hex } from '#lib/record/hash.ts';
import type { BuiltRecordData } from '#lib/record/kinds/work.ts';
import { buildNotice, buildRecord, noticePhotos } from '#lib/report/build.ts';
import { serve } from './bridge.ts';
import { shrink } from './shrink.ts';

/** What a record is built from. */
export interface RecordOrder {
  /** The record of the whole job, which an order that names nothing means, or the one-page notice of condition. */
  readonly kind?: 'record' | 'notice';
  readonly raws: readonly string[];
  /** Rows of the store that no longer parse. */
  readonly unreadable: number;
  /** Originals of photos and signatures by SHA-256, as handles; what this phone does not hold is left out and named in the record. */
  readonly photos: ReadonlyMap<string, Blob>;
  readonly locale: 'en' | 'es';
  readonly paper: 'letter' | 'a4';
  readonly built: Times;
  /** The person who builds it. */
  readonly by: string;
  /** Addresses of the font's two weights. */
  readonly fonts: { readonly text: string; readonly strong: string };
}

/** The PDF, the data of its `record` entry, and the pictures made for it by their own SHA-256. */
export interface MadeRecord {
  readonly pdf: Blob;
  readonly data: BuiltRecordData;
  readonly pictures: readonly { readonly sha256: string; readonly body: Blob }[];
}

/** Long side and quality of a printed picture: about 150 kB, and 300 of them still travel by mail. */
const PRINT_PX = 1200;
const PRINT_QUALITY = 0.75;

serve<RecordOrder, MadeRecord>(async ({ kind = 'record', raws, photos, fonts, ...order }) => {
  const input = { ...order, entries: raws.map(entryOf) };
  const wanted = kind === 'notice' ? new Set(noticePhotos(input)) : null;
  const pictures = new Map<string, { bytes: Uint8Array<ArrayBuffer>; width: number; height: number }>();
  for (const [sha256, photo] of photos) {
    if (wanted?.has(sha256) === false) continue;
    const small = await shrink(photo, PRINT_PX, PRINT_QUALITY);
    if (small === null) continue;
    const { jpeg, width, height } = small;
    pictures.set(sha256, { bytes: new Uint8Array(await jpeg.arrayBuffer()), width, height });
  }
  const faces = { text: await bytesAt(fonts.text), strong: await bytesAt(fonts.strong) };
  const made = await (kind === 'notice' ? buildNotice : buildRecord)({ ...input, fonts: faces, pictures });
  if (made === null) throw new Error('notice: every survey accepted what it saw');
  const { document, pdf } = made;
  const printed = [...pictures.values()].map(({ bytes }) => ({
    sha256: sha256Hex(bytes),
    body: new Blob([bytes], { type: 'image/jpeg' }),
  }));
  return {
    pdf: new Blob([pdf], { type: 'application/pdf' }),
    data: {
      rules: document.rules,
      lang: order.locale,
      heads: document.heads,
      document,
      pictures: printed.map((one) => one.sha256),
      pdf: { sha256: sha256Hex(pdf), bytes: pdf.length },
    },
    pictures: printed,
  };
});

/** The log was read from these very texts a moment ago. */
function entryOf(raw: string, i: number) {
  const read = readEntry(raw, `entry ${i}`);
  if (!read.ok) throw new Error(`${read.fault.at}: ${read.fault.code}`);
  return read.value;
}

async function bytesAt(address: string): Promise<Uint8Array<ArrayBuffer>> {
  const answer = await fetch(address);
  if (!answer.ok) throw new Error(`${address}: ${answer.status}`);
  return new Uint8Array(await answer.arrayBuffer());
}
