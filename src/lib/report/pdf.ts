import PDFDocument from 'pdfkit';
import { hasher } from '../record/hash.ts';
import type { Worded } from './blocks.ts';
import { layOut, PAPER_PT, type Paper } from './layout.ts';
import type { Op, PathOp, PlacedHeading, Tag } from './page.ts';
import type { Picture } from './photos.ts';
import { printable, type Measure } from './text.ts';
import { unwrapped } from './woff.ts';

/** The two cuts of the face, as WOFF or TrueType bytes. */
export interface Fonts {
  readonly text: Uint8Array;
  readonly strong: Uint8Array;
}

/** A finished file. Its bytes lie where the platform keeps those of a Blob. */
export interface MadePdf {
  readonly blob: Blob;
  readonly sha256: string;
}

export interface PdfInput {
  readonly worded: Worded;
  readonly paper: Paper;
  readonly fonts: Fonts;
  readonly pictures: ReadonlyMap<string, Picture>;
  /** The job's log, attached as log.jsonl; null for a paper that carries none. */
  readonly log: string | null;
  /** Instant written into the file as its own date (RFC 3339, UTC). */
  readonly builtUtc: string;
  /** The part of PDF/A it is marked as; 3a unless said otherwise. 1b is the one that a validator at hand can prove: untagged, nothing attached. */
  readonly archival?: '3a' | '1b';
}

/**
 * The PDF of a worded record: PDF 1.7, tagged, fonts embedded, with the marks of PDF/A-3a (conformance itself is not proven
 * here) and the log attached where there is one. The same input gives the same bytes in a browser's worker and in Node, which is why nothing is
 * compressed (their deflate differs) and every date is an argument. The library's browser build is a package export that takes
 * Uint8Array, so a bundler finds it by itself and a worker needs no stand-in for Node's Buffer. Of pictures, those of one page are in
 * memory at a time, and what is written leaves it piece by piece.
 */
export async function recordPdf({ worded, paper, fonts, pictures, log, builtUtc, archival = '3a' }: PdfInput): Promise<MadePdf> {
  const built = new Date(builtUtc);
  const title = printable(worded.title).replaceAll('\n', ' ');
  const doc = new PDFDocument({
    size: [...PAPER_PT[paper]],
    margin: 0,
    autoFirstPage: false,
    compress: false,
    pdfVersion: archival === '3a' ? '1.7' : '1.4',
    subset: `PDF/A-${archival}`,
    tagged: archival === '3a',
    lang: worded.editions[0].lang,
    displayTitle: true,
    // Without this the library registers a standard font that it does not embed.
    font: null as unknown as string,
    info: { Title: title, Creator: 'Layerbook', CreationDate: built, ModDate: built },
  });
  escapeTitleInMetadata(doc, title);
  doc.registerFont('text', await unwrapped(fonts.text));
  doc.registerFont('strong', await unwrapped(fonts.strong));
  setWords(doc);
  const made = collected(doc);
  const { pages, tree } = layOut(worded, paper, pictures, measureWith(doc));
  const contents = new Map<Tag, PDFKit.PDFStructureContent[]>();
  const images = new Map<string, unknown>();
  const bookmarks = new Bookmarks(doc, PAPER_PT[paper][0]);
  for (const page of pages) {
    doc.addPage();
    page.headings.forEach((heading) => bookmarks.add(heading));
    for (const op of page.ops) if (op.op === 'image') await openImage(doc, op.sha256, pictures, images);
    drawPage(doc, page.ops, images, contents);
  }
  bookmarks.end();
  addTree(doc, tree, contents);
  // The types know neither `relationship` nor bytes other than Node's Buffer; the library writes the one and takes the other.
  const attachment = {
    name: 'log.jsonl',
    type: 'application/x-ndjson',
    description: worded.logDescription,
    relationship: 'Source',
    creationDate: built,
    modifiedDate: built,
  };
  if (log !== null) doc.file(new TextEncoder().encode(log) as Buffer, attachment);
  doc.end();
  return made;
}

/** The library writes the title into XML as it is. It is written there last, after the title of the file itself. */
function escapeTitleInMetadata(doc: PDFKit.PDFDocument, title: string): void {
  const endMetadata = doc.endMetadata.bind(doc);
  doc.endMetadata = () => {
    doc.info.Title = title.replaceAll('&', '&amp;').replaceAll('<', '&lt;').replaceAll('>', '&gt;');
    endMetadata();
  };
}

/** Reads a picture, once, however often it is printed. The library lets its bytes go once they are written. */
async function openImage(
  doc: PDFKit.PDFDocument,
  original: string,
  pictures: PdfInput['pictures'],
  images: Map<string, unknown>,
): Promise<void> {
  if (images.has(original)) return;
  const picture = pictures.get(original);
  if (picture === undefined) throw new TypeError(`picture ${original}: laid out and not given`);
  // The types do not know that a picture may be opened before it is placed, though `image` takes what this gives.
  const library = doc as unknown as { openImage: (bytes: Uint8Array) => unknown };
  images.set(original, library.openImage(await picture.bytes()));
}

/** What the library keeps of a bookmark before it is written; its types leave this out. */
interface Bookmark {
  readonly children: readonly Bookmark[];
  readonly outlineData: { Count?: number };
  addItem(title: string, at: { top: number; left: number }): Bookmark;
}

/** A bookmark for each heading, those within a part folded up under it. The library counts `left` from the right edge. */
class Bookmarks {
  readonly #root: Bookmark;
  readonly #pageWidth: number;
  #part: Bookmark;

  constructor(doc: PDFKit.PDFDocument, pageWidth: number) {
    this.#root = doc.outline as unknown as Bookmark;
    this.#part = this.#root;
    this.#pageWidth = pageWidth;
  }

  add({ level, text, y }: PlacedHeading): void {
    const title = printable(text).replaceAll('\n', ' ');
    const added = (level === 1 ? this.#root : this.#part).addItem(title, { top: Math.max(0, y - 6), left: this.#pageWidth });
    if (level === 1) this.#part = added;
  }

  /** How many show at first, which PDF/A wants said (ISO 32000-1, tables 152 and 153: below 0 while folded up); the library says it only of open ones. */
  end(): void {
    const { children } = this.#root;
    if (children.length > 0) this.#root.outlineData.Count = children.length;
    for (const part of children) if (part.children.length > 0) part.outlineData.Count = -part.children.length;
  }
}

/** Pieces of this many bytes leave the heap as a Blob each. */
const PIECE_BYTES = 1024 * 1024;

function collected(doc: PDFKit.PDFDocument): Promise<MadePdf> {
  const pieces: Blob[] = [];
  let open: Uint8Array<ArrayBuffer>[] = [];
  let held = 0;
  const hash = hasher();
  const shut = () => {
    pieces.push(new Blob(open));
    [open, held] = [[], 0];
  };
  return new Promise((resolve, reject) => {
    doc.on('data', (chunk: Uint8Array<ArrayBuffer>) => {
      hash.take(chunk);
      open.push(chunk);
      held += chunk.length;
      if (held >= PIECE_BYTES) shut();
    });
    doc.on('error', reject);
    doc.on('end', () => {
      shut();
      resolve({ blob: new Blob(pieces, { type: 'application/pdf' }), sha256: hash.done() });
    });
  });
}

/** Digits on one width, in columns and in fractions too: the proportional 1 closes up until 1 7/8 reads as 17/8. */
const SET: PDFKit.Mixins.OpenTypeFeatures[] = ['tnum'];

/** Glyphs in a row, as the library lays them out; its types leave this out. */
interface Run {
  readonly glyphs: readonly unknown[];
  readonly positions: readonly unknown[];
  readonly advanceWidth: number;
}
interface Face {
  layoutRun: (text: string, features?: PDFKit.Mixins.OpenTypeFeatures[]) => Run;
}

/** A group of a hash: no two are alike, and nothing between its digits is drawn closer together. */
const DIGITS = /^[0-9a-f]{8}$/;

/**
 * Has every word set with those features, and laid out once. Asked for at each text they would keep the library from using a word that it
 * has laid out before: laying out again, three times for each line, took most of the time of a record. A word and the space after it are
 * laid out apart, and so are the digits of a hash: a word is as wide as it was measured.
 */
function setWords(doc: PDFKit.PDFDocument): void {
  for (const face of ['text', 'strong'] as const) {
    const font = (doc.font(face) as unknown as { _font: Face })._font;
    const layoutRun = font.layoutRun.bind(font);
    const known = new Map<string, Run>();
    const runOf = (piece: string): Run => {
      const run = known.get(piece) ?? layoutRun(piece, SET);
      known.set(piece, run);
      return run;
    };
    font.layoutRun = (text) => {
      const word = text.endsWith(' ') ? text.slice(0, -1) : text;
      const runs = [...(DIGITS.test(word) ? word.split('').map(runOf) : [runOf(word)]), ...(word === text ? [] : [runOf(' ')])];
      return {
        glyphs: runs.flatMap(({ glyphs }) => glyphs),
        positions: runs.flatMap(({ positions }) => positions),
        advanceWidth: runs.reduce((sum, { advanceWidth }) => sum + advanceWidth, 0),
      };
    };
  }
}

/** Widths as the library will set them, each asked for once. */
function measureWith(doc: PDFKit.PDFDocument): Measure {
  const widths = new Map<string, number>();
  return (text, face, size) => {
    const key = `${face} ${text}`;
    const known = widths.get(key);
    if (known !== undefined) return (known * size) / 1000;
    doc.font(face).fontSize(1000);
    const width = doc.widthOfString(text);
    widths.set(key, width);
    return (width * size) / 1000;
  };
}

/** Draws a page; neighbours in ink that belong to one element are marked as one piece of it. */
function drawPage(
  doc: PDFKit.PDFDocument,
  ops: readonly Op[],
  images: ReadonlyMap<string, unknown>,
  contents: Map<Tag, PDFKit.PDFStructureContent[]>,
): void {
  let open: Tag | null | undefined;
  for (const op of ops) {
    if (op.tag !== open) {
      if (open !== undefined) doc.endMarkedContent();
      open = op.tag;
      if (open === null) doc.markContent('Artifact', { type: 'Pagination' });
      else contents.set(open, [...(contents.get(open) ?? []), doc.markStructureContent(open.type)]);
    }
    drawOp(doc, op, images);
  }
  if (open !== undefined) doc.endMarkedContent();
}

function drawOp(doc: PDFKit.PDFDocument, op: Op, images: ReadonlyMap<string, unknown>): void {
  switch (op.op) {
    case 'text':
      doc.font(op.face).fontSize(op.size).fillColor(op.ink);
      if (op.turn !== undefined) doc.save().rotate(op.turn, { origin: [op.x, op.y] });
      doc.text(op.text, op.x, op.y, { lineBreak: false, baseline: 'alphabetic' });
      if (op.turn !== undefined) doc.restore();
      return;
    case 'image':
      doc.image(images.get(op.sha256) as Buffer, op.x, op.y, { width: op.width, height: op.height });
      return;
    case 'path':
      drawPath(doc, op, op.x, op.y);
  }
}

function drawPath(doc: PDFKit.PDFDocument, { d, fill, stroke, pen = 1, dash, matrix, clip }: PathOp, x: number, y: number): void {
  doc.save().translate(x, y);
  if (clip !== undefined) doc.path(clip).clip();
  if (matrix !== undefined) doc.transform(...matrix);
  doc.path(d).lineWidth(pen);
  if (dash !== undefined) doc.dash(dash[0], { space: dash[1] });
  if (fill !== undefined && stroke !== undefined) doc.fillAndStroke(fill, stroke);
  else if (fill !== undefined) doc.fill(fill);
  else if (stroke !== undefined) doc.stroke(stroke);
  doc.restore();
}

function addTree(doc: PDFKit.PDFDocument, tree: Tag, contents: ReadonlyMap<Tag, PDFKit.PDFStructureContent[]>): void {
  const add = (tag: Tag, hang: (element: PDFKit.PDFStructureElement) => void): void => {
    const { type, alt, lang, scope } = tag;
    const element = doc.struct(type, {
      ...(alt !== undefined && { alt }),
      ...(lang !== undefined && { lang }),
      ...(scope !== undefined && { scope }),
    });
    hang(element);
    for (const content of contents.get(tag) ?? []) element.add(content);
    for (const kid of tag.kids) add(kid, (child) => element.add(child));
    element.end();
  };
  add(tree, (root) => doc.addStructure(root));
}
