const HEADER = 44;
const ENTRY = 20;

/**
 * The font inside a WOFF 1.0 file (W3C Recommendation of 13 December 2012), each table inflated once; any other file as it is. The PDF
 * library can read a WOFF too, but inflates a table anew each time it looks into it, by a slow inflater of its own.
 */
export async function unwrapped(file: Uint8Array): Promise<Uint8Array> {
  const view = new DataView(file.buffer, file.byteOffset, file.byteLength);
  if (file.length < HEADER || view.getUint32(0) !== 0x774f4646) return file;
  const count = view.getUint16(12);
  const tables = await Promise.all(
    Array.from({ length: count }, async (_, i) => {
      const at = HEADER + i * ENTRY;
      const [offset, packed, length] = [view.getUint32(at + 4), view.getUint32(at + 8), view.getUint32(at + 12)];
      const bytes = file.subarray(offset, offset + packed);
      return { tag: view.getUint32(at), checksum: view.getUint32(at + 16), bytes: packed < length ? await inflated(bytes) : bytes };
    }),
  );
  const start = 12 + count * 16;
  const font = new Uint8Array(tables.reduce((size, { bytes }) => size + padded(bytes.length), start));
  const out = new DataView(font.buffer);
  out.setUint32(0, view.getUint32(4));
  out.setUint16(4, count);
  // The rest of the header speeds a search that nobody does here, but belongs to a font (OpenType 1.9, "Table directory").
  const power = Math.floor(Math.log2(count));
  out.setUint16(6, 2 ** power * 16);
  out.setUint16(8, power);
  out.setUint16(10, count * 16 - 2 ** power * 16);
  let at = start;
  tables.forEach(({ tag, checksum, bytes }, i) => {
    [tag, checksum, at, bytes.length].forEach((value, k) => out.setUint32(12 + i * 16 + k * 4, value));
    font.set(bytes, at);
    at += padded(bytes.length);
  });
  return font;
}

function padded(length: number): number {
  return Math.ceil(length / 4) * 4;
}

async function inflated(bytes: Uint8Array): Promise<Uint8Array> {
  const stream = new Blob([new Uint8Array(bytes)]).stream().pipeThrough(new DecompressionStream('deflate'));
  return new Uint8Array(await new Response(stream).arrayBuffer());
}
