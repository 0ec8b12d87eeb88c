import type { Block, Photo } from './blocks.ts';
import { INK, INK_2, lineHeight, moved, tag, textOps, type Op, type Tag } from './page.ts';
import type { Strip } from './strip.ts';
import { wrap, type Measure } from './text.ts';

/** A picture as it will be printed: a JPEG, upright, with its size in pixels. */
export interface Picture {
  readonly bytes: Uint8Array;
  readonly width: number;
  readonly height: number;
}

const GAP = 18;
/** The greatest height of a picture. */
const PHOTO_MAX_PT = 176;
const CAPTION_PT = 9;
/** Caption lines in one strip with the pictures; a longer caption runs on below. */
const CAPTION_LINES = 24;

interface LaidPhoto {
  readonly height: number;
  readonly picture: readonly Op[];
  /** Lines of the caption, each drawn at its own top. */
  readonly lines: readonly (readonly Op[])[];
}

/** Rows of photos, each under its mark and over its caption. */
export function photoStrips(
  { photos, columns, missing }: Extract<Block, { block: 'photos' }>,
  width: number,
  parent: Tag,
  pictures: ReadonlyMap<string, Picture>,
  measure: Measure,
): Strip[] {
  const cellWidth = (width - GAP * (columns - 1)) / columns;
  const strips: Strip[] = [];
  for (let i = 0; i < photos.length; i += columns) {
    const row = photos.slice(i, i + columns).map((photo) => laid(photo, missing, cellWidth, parent, pictures, measure));
    strips.push(...rowStrips(row, cellWidth + GAP));
  }
  return strips;
}

function rowStrips(row: readonly LaidPhoto[], pitch: number): Strip[] {
  const step = lineHeight(CAPTION_PT);
  const captionOps = (from: number, to: number, top: (photo: LaidPhoto) => number) =>
    row.flatMap((photo, k) => photo.lines.slice(from, to).flatMap((line, n) => moved(line, k * pitch, top(photo) + n * step)));
  const strips: Strip[] = [
    {
      before: 14,
      height: Math.max(...row.map((photo) => photo.height + 3 + Math.min(photo.lines.length, CAPTION_LINES) * step)),
      ops: [...row.flatMap((photo, k) => moved(photo.picture, k * pitch, 0)), ...captionOps(0, CAPTION_LINES, (photo) => photo.height + 3)],
    },
  ];
  const longest = Math.max(...row.map((photo) => photo.lines.length));
  for (let from = CAPTION_LINES; from < longest; from += CAPTION_LINES) {
    const to = Math.min(from + CAPTION_LINES, longest);
    strips.push({ before: 0, height: (to - from) * step, ops: captionOps(from, to, () => 0) });
  }
  return strips;
}

function laid(
  photo: Photo,
  missing: string,
  width: number,
  parent: Tag,
  pictures: ReadonlyMap<string, Picture>,
  measure: Measure,
): LaidPhoto {
  const figure = tag(parent, 'Figure', { alt: photo.alt });
  const caption = tag(figure, 'Caption');
  const found = photo.printed ? pictures.get(photo.sha256) : undefined;
  const scale = found === undefined ? 1 : Math.min(width / found.width, PHOTO_MAX_PT / found.height);
  const box = found === undefined ? { width, height: 76 } : { width: found.width * scale, height: found.height * scale };
  const content: Op[] =
    found === undefined
      ? textOps(wrap(missing, 'text', CAPTION_PT, width - 20, measure), 10, 26, { face: 'text', size: CAPTION_PT }, figure)
      : [{ op: 'image', tag: figure, x: 0, y: 0, sha256: photo.sha256, ...box }];
  const frame = { op: 'path' as const, tag: figure, x: 0, y: 0, stroke: INK, pen: 0.75 };
  const line = (face: 'text' | 'strong', ink: string) => (text: string) => textOps([text], 0, 0, { face, size: CAPTION_PT, ink }, caption);
  return {
    height: box.height,
    picture: [
      ...content,
      { ...frame, d: `M0 0H${box.width}V${box.height}H0Z` },
      { ...frame, d: `M0 0H${10 + measure(photo.mark, 'strong', 10)}V16H0Z`, fill: '#ffffff' },
      ...textOps([photo.mark], 5, 1.5, { face: 'strong', size: 10 }, figure),
    ],
    lines: [
      ...wrap(photo.lead, 'strong', CAPTION_PT, width, measure).map(line('strong', INK)),
      ...wrap(photo.caption, 'text', CAPTION_PT, width, measure).map(line('text', INK_2)),
    ],
  };
}
