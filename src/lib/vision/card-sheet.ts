import { CARD, isBlackCell, MARKER_CELLS } from './card.ts';

/** What is written on and beside the card, in one language; only characters of Latin-1. */
export interface CardWords {
  readonly title: string;
  /** Beside the bar. */
  readonly bar: string;
  /** Below the card, a line each. */
  readonly howTo: readonly string[];
}

interface Box {
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly height: number;
}

interface Line {
  readonly x: number;
  /** Of the letters' foot. */
  readonly y: number;
  readonly sizeMm: number;
  readonly text: string;
}

/** Sizes of paper, in mm: ISO 216 A4, and Letter of 8 1/2 x 11 in. */
const PAPERS = [
  { width: 210, height: 297 },
  { width: 215.9, height: 279.4 },
] as const;
const MM_PT = 72 / 25.4;
const BAR_LINE_MM = 0.8;
const BAR_END_MM = 5;

/** Everything black on the card, in mm from the corner of its paper. */
function blackBoxes(): Box[] {
  const { frame, markers, bar, margin } = CARD;
  const inFrame: Box[] = [
    { x: 0, y: 0, width: frame.width, height: frame.line },
    { x: 0, y: frame.height - frame.line, width: frame.width, height: frame.line },
    { x: 0, y: frame.line, width: frame.line, height: frame.height - 2 * frame.line },
    { x: frame.width - frame.line, y: frame.line, width: frame.line, height: frame.height - 2 * frame.line },
    { x: bar.x, y: bar.y - BAR_LINE_MM / 2, width: bar.length, height: BAR_LINE_MM },
    // The bar is measured between the outer sides of its ends.
    { x: bar.x, y: bar.y - BAR_END_MM / 2, width: BAR_LINE_MM, height: BAR_END_MM },
    { x: bar.x + bar.length - BAR_LINE_MM, y: bar.y - BAR_END_MM / 2, width: BAR_LINE_MM, height: BAR_END_MM },
  ];
  const cell = markers.side / MARKER_CELLS;
  for (const [marker, [left, top]] of markers.at.entries()) {
    for (let row = 0; row < MARKER_CELLS; row++) {
      // Neighbours in a row are one box, so that no printer leaves a gap between them.
      for (let column = 0; column < MARKER_CELLS; column++) {
        let run = 0;
        while (column + run < MARKER_CELLS && isBlackCell(marker, column + run, row)) run++;
        if (run > 0) inFrame.push({ x: left + column * cell, y: top + row * cell, width: run * cell, height: cell });
        column += run;
      }
    }
  }
  return inFrame.map((box) => ({ ...box, x: box.x + margin, y: box.y + margin }));
}

function linesOn({ title, bar }: CardWords): Line[] {
  const { margin } = CARD;
  const x = CARD.bar.x + margin;
  return [
    { x: margin + 38, y: margin + 20, sizeMm: 4, text: title },
    { x, y: CARD.bar.y + margin + 7, sizeMm: 2.8, text: bar },
  ];
}

/** The card alone as SVG, in its true size: 150 x 100 mm with the line to cut along. */
export function cardSvg(words: CardWords): string {
  const { width, height } = CARD.paper;
  const boxes = blackBoxes().map((box) => `<rect x="${box.x}" y="${box.y}" width="${box.width}" height="${box.height}"/>`);
  const lines = linesOn(words).map(
    ({ x, y, sizeMm, text }) =>
      `<text x="${x}" y="${y}" font-family="Helvetica, Arial, sans-serif" font-size="${sizeMm}">${escapeXml(text)}</text>`,
  );
  return [
    `<svg xmlns="http://www.w3.org/2000/svg" width="${width}mm" height="${height}mm" viewBox="0 0 ${width} ${height}">`,
    `<rect x="0" y="0" width="${width}" height="${height}" fill="#fff"/>`,
    `<rect x="0.05" y="0.05" width="${width - 0.1}" height="${height - 0.1}" fill="none" stroke="#999" stroke-width="0.1"/>`,
    ...boxes,
    ...lines,
    '</svg>\n',
  ].join('\n');
}

function escapeXml(text: string): string {
  return text.replaceAll('&', '&amp;').replaceAll('<', '&lt;').replaceAll('>', '&gt;');
}

/** The card on a page of A4 and one of Letter, as PDF 1.6: the same bytes for the same words. Print the page of one's paper at 100 %. */
export function cardPdf(words: CardWords): Uint8Array {
  const streams = PAPERS.map((paper) => pageContent(paper, words));
  const pages = streams.map((_, i) => `${3 + 2 * i} 0 R`).join(' ');
  const objects = [
    // Programs that print are asked not to scale.
    '<< /Type /Catalog /Pages 2 0 R /ViewerPreferences << /PrintScaling /None >> >>',
    `<< /Type /Pages /Kids [${pages}] /Count ${PAPERS.length} /Resources << /Font << /F << /Type /Font /Subtype /Type1 /BaseFont /Helvetica /Encoding /WinAnsiEncoding >> >> >> >>`,
    ...streams.flatMap((stream, i) => [
      `<< /Type /Page /Parent 2 0 R /MediaBox [0 0 ${pt(PAPERS[i]!.width)} ${pt(PAPERS[i]!.height)}] /Contents ${4 + 2 * i} 0 R >>`,
      `<< /Length ${stream.length} >>\nstream\n${stream}\nendstream`,
    ]),
  ];
  let file = '%PDF-1.6\n';
  const offsets = objects.map((object, i) => {
    const offset = file.length;
    file += `${i + 1} 0 obj\n${object}\nendobj\n`;
    return offset;
  });
  const start = file.length;
  file += `xref\n0 ${objects.length + 1}\n0000000000 65535 f \n`;
  file += offsets.map((offset) => `${String(offset).padStart(10, '0')} 00000 n \n`).join('');
  file += `trailer\n<< /Size ${objects.length + 1} /Root 1 0 R >>\nstartxref\n${start}\n%%EOF\n`;
  return Uint8Array.from(file, (character) => character.charCodeAt(0));
}

function pageContent(page: { readonly width: number; readonly height: number }, words: CardWords): string {
  const { width, height } = CARD.paper;
  const [left, top] = [(page.width - width) / 2, 30];
  const box = ({ x, y, width: w, height: h }: Box) => `${pt(left + x)} ${pt(page.height - top - y - h)} ${pt(w)} ${pt(h)} re`;
  const text = ({ x, y, sizeMm, text: said }: Line) =>
    `BT /F ${pt(sizeMm)} Tf ${pt(left + x)} ${pt(page.height - top - y)} Td (${said.replaceAll(/[\\()]/g, '\\$&')}) Tj ET`;
  const below = words.howTo.map((said, i): Line => ({ x: 0, y: height + 12 + 7 * i, sizeMm: 4, text: said }));
  return [
    '0 g',
    ...blackBoxes().map(box),
    'f',
    '0.6 G 0.3 w',
    `${box({ x: 0, y: 0, width, height })} S`,
    ...[...linesOn(words), ...below].map(text),
  ].join('\n');
}

function pt(mm: number): string {
  return (mm * MM_PT).toFixed(3);
}
