import { readEntry, type Times } from '#lib/record/entry.ts';
import type { BuiltRecordData } from '#lib/record/kinds/work.ts';
import { buildPaper, buildRecord, paperPhotos } from '#lib/report/build.ts';
import type { TypedCards } from '#lib/report/mixing-nodes.ts';
import type { PaperKind } from '#lib/report/papers.ts';
import { serve } from './bridge.ts';
import { printed, type DerivedPicture } from './print.ts';

/** What a record is built from. */
export interface RecordOrder {
  /** The record of the whole job, or a paper for one reader. */
  readonly kind: 'record' | PaperKind;
  readonly raws: readonly string[];
  /** Rows of the store that no longer parse. */
  readonly unreadable: number;
  /** Originals of photos and signatures by SHA-256, as handles; what this phone does not hold is left out and named in the record. */
  readonly photos: ReadonlyMap<string, Blob>;
  /** Pictures that an earlier record was printed with, by the SHA-256 of their original: they are printed again, not made again. */
  readonly derived: ReadonlyMap<string, DerivedPicture>;
  readonly locale: 'en' | 'es' | 'both';
  readonly paper: 'letter' | 'a4';
  readonly built: Times;
  /** The person who builds it. */
  readonly by: string;
  /** Personal data to keep back. */
  readonly left: readonly 'address'[];
  /** Mixing cards as typed, by room, for the paper that prints them. */
  readonly cards?: TypedCards;
  /** The callback that an answer is to. */
  readonly callback?: string;
  /** Addresses of the font's two weights. */
  readonly fonts: { readonly text: string; readonly strong: string };
}

/** The PDF, the data of its `record` entry, and the pictures made for it by their own SHA-256; null where the job has nothing for the paper. */
export interface MadeRecord {
  readonly pdf: Blob;
  readonly data: BuiltRecordData;
  readonly pictures: readonly { readonly sha256: string; readonly body: Blob }[];
}

serve<RecordOrder, MadeRecord | null>(async ({ kind, raws, photos, derived, fonts, ...order }) => {
  const input = { ...order, entries: raws.map(entryOf) };
  const wanted = kind === 'record' ? [...photos.keys(), ...derived.keys()] : paperPhotos(kind, input);
  const pictures = new Map<string, DerivedPicture>();
  for (const original of new Set(wanted)) {
    const photo = photos.get(original);
    const picture = derived.get(original) ?? (photo === undefined ? null : await printed(original, photo));
    if (picture !== null) pictures.set(original, picture);
  }
  const faces = { text: await bytesAt(fonts.text), strong: await bytesAt(fonts.strong) };
  const ready = new Map(
    [...pictures].map(([original, { made, body }]) => [
      original,
      { sha256: made.sha256, width: made.width, height: made.height, bytes: async () => new Uint8Array(await body.arrayBuffer()) },
    ]),
  );
  const given = { ...input, fonts: faces, pictures: ready };
  const built = kind === 'record' ? await buildRecord(given) : await buildPaper(kind, given);
  if (built === null) return null;
  const { document, pdf } = built;
  const { rules, heads } = document;
  return {
    pdf: pdf.blob,
    data: {
      rules,
      lang: order.locale,
      paperSize: order.paper,
      heads: [...heads],
      document: { ...document },
      pictures: [...pictures.values()].map(({ made }) => made.sha256),
      derived: [...pictures.values()].map(({ made }) => ({ ...made })),
      pdf: { sha256: pdf.sha256, bytes: pdf.blob.size },
    },
    pictures: [...pictures.values()].map(({ made, body }) => ({ sha256: made.sha256, body })),
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
