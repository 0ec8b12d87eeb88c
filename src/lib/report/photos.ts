import type { Block, Photo } from './blocks.ts';
import { overlayOps } from './overlay.ts';
import { INK, INK_2, lineHeight, moved, tag, textOps, type Op, type Tag } from './page.ts';
import type { Strip } from './strip.ts';
import { wrap, type Measure } from './text.ts';

/** A picture as it will be printed: a JPEG, upright, with its own SHA-256 and its size in pixels. Its bytes are asked for when its page is drawn. */
export interface Picture {
  readonly sha256: string;
  readonly width: number;
  readonly height: number;
  readonly bytes: () => Promise<Uint8Array>;
}

const GAP = 18;
/** Between photos of one place. */
const CHAIN_GAP = 8;
/** The greatest height of a picture. */
const PHOTO_MAX_PT = 176;
/** Height of photos of one place: two upright pairs stand in a row. */
const CHAIN_PT = 158;
/** The least width of a cell, that a caption can be read under. */
const CELL_MIN_PT = 92;
const MISSING_PT = { width: 120, height: 76 };
const CAPTION_PT = 9;
/** Caption lines in one strip with the pictures; a longer caption runs on below. */
const CAPTION_LINES = 24;

interface LaidPhoto {
  readonly x: number;
  readonly height: number;
  readonly picture: readonly Op[];
  /** Lines of the caption, each drawn at its own top. */
  readonly lines: readonly (readonly Op[])[];
}

/** What laying a photo out needs beside the photo. */
interface Sheet {
  readonly parent: Tag;
  readonly pictures: ReadonlyMap<string, Picture>;
  readonly missing: string;
  readonly measure: Measure;
}

/** Rows of photos, each under its mark and over its caption. */
export function photoStrips(
  { photos, columns, missing }: Extract<Block, { block: 'photos' }>,
  width: number,
  parent: Tag,
  pictures: ReadonlyMap<string, Picture>,
  measure: Measure,
): Strip[] {
  const sheet = { parent, pictures, missing, measure };
  const cellWidth = (width - GAP * (columns - 1)) / columns;
  // Upright photos are held to a square, so that a row of them is no taller than one of photos lying down and its captions.
  const most = Math.min(PHOTO_MAX_PT, cellWidth);
  const strips: Strip[] = [];
  for (let i = 0; i < photos.length; i += columns) {
    const row = photos.slice(i, i + columns);
    strips.push(...rowStrips(row.map((photo, k) => laid(photo, k * (cellWidth + GAP), cellWidth, most, sheet))));
  }
  return strips;
}

/** Photos of one place side by side at one height, as many places in a row as stand there whole. */
export function chainStrips(
  { chains, missing }: Extract<Block, { block: 'chains' }>,
  width: number,
  parent: Tag,
  pictures: ReadonlyMap<string, Picture>,
  measure: Measure,
): Strip[] {
  const sheet = { parent, pictures, missing, measure };
  const strips: Strip[] = [];
  let row: LaidPhoto[] = [];
  let used = 0;
  const end = () => {
    if (row.length > 0) strips.push(...rowStrips(row));
    [row, used] = [[], 0];
  };
  for (const chain of chains) {
    const [widths, height] = chainWidths(chain, width, pictures);
    const whole = widths.reduce((sum, one) => sum + one, CHAIN_GAP * (widths.length - 1));
    if (used > 0 && used + GAP + whole > width) end();
    let x = used === 0 ? 0 : used + GAP;
    chain.forEach((photo, i) => {
      row.push(laid(photo, x, widths[i]!, height, sheet));
      x += widths[i]! + CHAIN_GAP;
    });
    used = x - CHAIN_GAP;
  }
  end();
  return strips;
}

/** Widths of a chain's cells at one height of pictures, and that height: lower where they would not fit side by side. */
function chainWidths(chain: readonly Photo[], width: number, pictures: ReadonlyMap<string, Picture>): [number[], number] {
  const ratios = chain.map(({ printed, sha256 }) => {
    const picture = printed ? pictures.get(sha256) : undefined;
    return picture === undefined ? MISSING_PT.width / CHAIN_PT : picture.width / picture.height;
  });
  const free = width - CHAIN_GAP * (chain.length - 1);
  const least = Math.min(CELL_MIN_PT, free / chain.length);
  const at = (height: number) => ratios.map((ratio) => Math.max(least, ratio * height));
  const sum = (widths: readonly number[]) => widths.reduce((all, one) => all + one, 0);
  for (let height = CHAIN_PT; height > 24; height -= 6) if (sum(at(height)) <= free) return [at(height), height];
  return [ratios.map(() => free / chain.length), CHAIN_PT];
}

function rowStrips(row: readonly LaidPhoto[]): Strip[] {
  const step = lineHeight(CAPTION_PT);
  const captionOps = (from: number, to: number, top: (photo: LaidPhoto) => number) =>
    row.flatMap((photo) => photo.lines.slice(from, to).flatMap((line, n) => moved(line, photo.x, top(photo) + n * step)));
  const strips: Strip[] = [
    {
      before: 14,
      height: Math.max(...row.map((photo) => photo.height + 3 + Math.min(photo.lines.length, CAPTION_LINES) * step)),
      ops: [...row.flatMap((photo) => moved(photo.picture, photo.x, 0)), ...captionOps(0, CAPTION_LINES, (photo) => photo.height + 3)],
    },
  ];
  const longest = Math.max(...row.map((photo) => photo.lines.length));
  for (let from = CAPTION_LINES; from < longest; from += CAPTION_LINES) {
    const to = Math.min(from + CAPTION_LINES, longest);
    strips.push({ before: 0, height: (to - from) * step, ops: captionOps(from, to, () => 0) });
  }
  return strips;
}

/** The plate in its corner. */
function markBox(mark: string, measure: Measure): { width: number; height: number } {
  return { width: 10 + measure(mark, 'strong', 10), height: 16 };
}

function laid(photo: Photo, x: number, width: number, maxHeight: number, { parent, pictures, missing, measure }: Sheet): LaidPhoto {
  const figure = tag(parent, 'Figure', { alt: photo.alt });
  const caption = tag(figure, 'Caption');
  const found = photo.printed ? pictures.get(photo.sha256) : undefined;
  const scale = found === undefined ? 1 : Math.min(width / found.width, maxHeight / found.height);
  const said = found === undefined ? wrap(missing, 'text', CAPTION_PT, width - 20, measure) : [];
  const box =
    found === undefined
      ? { width, height: Math.max(MISSING_PT.height, 30 + said.length * lineHeight(CAPTION_PT)) }
      : { width: found.width * scale, height: found.height * scale };
  const content: Op[] =
    found === undefined
      ? textOps(said, 10, 22, { face: 'text', size: CAPTION_PT }, figure)
      : [
          { op: 'image', tag: figure, x: 0, y: 0, sha256: photo.sha256, ...box },
          ...(photo.over === undefined ? [] : overlayOps(photo.over, box, markBox(photo.mark, measure), figure, measure)),
        ];
  const frame = { op: 'path' as const, tag: figure, x: 0, y: 0, stroke: INK, pen: 0.75 };
  const line = (face: 'text' | 'strong', ink: string) => (text: string) => textOps([text], 0, 0, { face, size: CAPTION_PT, ink }, caption);
  return {
    x,
    height: box.height,
    picture: [
      ...content,
      { ...frame, d: `M0 0H${box.width}V${box.height}H0Z` },
      { ...frame, d: `M0 0H${markBox(photo.mark, measure).width}V16H0Z`, fill: '#ffffff' },
      ...textOps([photo.mark], 5, 1.5, { face: 'strong', size: 10 }, figure),
    ],
    lines: [
      ...wrap(photo.lead, 'strong', CAPTION_PT, width, measure).map(line('strong', INK)),
      ...wrap(photo.caption, 'text', CAPTION_PT, width, measure).map(line('text', INK_2)),
    ],
  };
}
