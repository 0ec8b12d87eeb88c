import { readFile } from 'node:fs/promises';
import sharp from 'sharp';
import type { Entry, Times } from '#lib/record/entry.ts';
import { sha256Hex } from '#lib/record/hash.ts';
import { known } from '#lib/record/kinds.ts';
import { sniff } from '#lib/record/media.ts';
import { unpack } from '#lib/record/unpack.ts';
import { buildRecord, type RecordInput } from '#lib/report/build.ts';
import type { Picture } from '#lib/report/photos.ts';
import { archiveFaultText } from '#lib/words/archive-fault.ts';
import { openInput, writeOutput } from './files.ts';
import { badInput, type Call, type Outcome } from './outcome.ts';
import { verifyCommand } from './verify.ts';

/** Long side, qualities and most bytes of a printed picture, as on the phone. */
const PRINT_PX = 1200;
const QUALITIES = [75, 62, 50, 35];
const MOST_BYTES = 185_000;
/** A header may claim more pixels than there is memory for; a phone's camera makes at most 200 million. */
const PIXELS_MAX = 200e6;

const FONTS = new URL('../../static/fonts/', import.meta.url);

/**
 * Builds a record of the job in an archive, dated now. What `verify` finds changed is answered as `verify` answers it, and no
 * record is written: it would lend its looks to what was altered.
 */
export async function reportCommand(call: Call): Promise<Outcome> {
  const checked = await verifyCommand(call);
  if (checked.exit === 1 || checked.exit === 2) return checked;
  const container = await openInput(call);
  if (!container.ok) return container.fault;
  const content = await unpack(container.value);
  if (!content.ok) return badInput('FILE', content.fault.code, archiveFaultText(content.fault, call.locale));
  const { entries, blob } = content.value;

  const photos = picturesOf(entries);
  const pictures: RecordInput['pictures'] = new Map(await printable(photos, blob));
  const job = entries.map(known).find((view) => view.kind === 'job');
  const { pdf } = await buildRecord({
    entries,
    unreadable: 0,
    built: timesNow(),
    // Nobody of the crew builds it: the record says where it was built.
    by: 'terminal',
    locale: call.locale,
    paper: job?.data.units === 'mm' ? 'a4' : 'letter',
    fonts: { text: await readFile(new URL('encode-sans-500.woff', FONTS)), strong: await readFile(new URL('encode-sans-700.woff', FONTS)) },
    pictures,
  });
  const answer = {
    job: entries[0]?.body.job,
    entries: entries.length,
    pictures: pictures.size,
    notPrinted: photos.filter((sha256) => !pictures.has(sha256)),
    sha256: pdf.sha256,
    bytes: pdf.blob.size,
    out: call.out,
  };
  return (await writeOutput(pdf.blob, call)) ?? { exit: 0, answer };
}

/** Every picture a record prints: photos, and the signatures under what was handed over or attested. */
function picturesOf(entries: readonly Entry[]): string[] {
  const named = entries.map(known).flatMap((view) => {
    if (view.kind === 'shot') return [view.data.picture];
    return (view.kind === 'hand-over' || view.kind === 'attestation') && view.data.signature !== undefined ? [view.data.signature] : [];
  });
  return [...new Set(named.map(({ sha256 }) => sha256))];
}

/** Pictures made for print, one at a time; a photo that is absent or that nothing here decodes is left out, and the record says so. */
async function printable(photos: readonly string[], blob: (sha256: string) => Promise<Blob | null>) {
  const pictures: [sha256: string, picture: Picture][] = [];
  for (const sha256 of photos) {
    const photo = await blob(sha256);
    const picture = photo === null ? null : await shrink(new Uint8Array(await photo.arrayBuffer()));
    if (picture !== null) pictures.push([sha256, picture]);
  }
  return pictures;
}

async function shrink(bytes: Uint8Array): Promise<Picture | null> {
  const type = sniff(bytes)?.type;
  if (type !== 'image/jpeg' && type !== 'image/png' && type !== 'image/webp') return null;
  try {
    // A photo that ends too early prints as far as it goes.
    const small = await sharp(bytes, { limitInputPixels: PIXELS_MAX, failOn: 'none' })
      .autoOrient()
      .resize(PRINT_PX, PRINT_PX, { fit: 'inside', withoutEnlargement: true })
      .flatten({ background: '#fff' })
      .raw()
      .toBuffer({ resolveWithObject: true });
    const { width, height, channels } = small.info;
    let jpeg = Buffer.alloc(0);
    for (const quality of QUALITIES) {
      jpeg = await sharp(small.data, { raw: { width, height, channels } }).jpeg({ quality }).toBuffer();
      if (jpeg.length <= MOST_BYTES) break;
    }
    return { sha256: sha256Hex(jpeg), width, height, bytes: async () => jpeg };
  } catch {
    return null;
  }
}

function timesNow(): Times {
  const now = new Date();
  return {
    utc: now.toISOString(),
    offsetMin: -now.getTimezoneOffset(),
    zone: Intl.DateTimeFormat().resolvedOptions().timeZone,
    monoMs: Math.round(performance.now()),
    session: 'terminal',
  };
}
