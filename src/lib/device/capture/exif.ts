/** What a camera file says of itself: a claim, shown beside the book's own times and never in their place. */
export type CameraSays = { taken?: string; orientation?: number };

/** Reads the EXIF claims of an image, or null when there are none or they cannot be read: a photo never fails over its tags. */
export async function readExif(bytes: Uint8Array): Promise<CameraSays | null> {
  try {
    const { default: exifr } = await import('exifr/dist/lite.esm.mjs');
    // Tags named block by block: a list for all blocks makes the library's small build look into blocks that it does not have.
    const tags: unknown = await exifr.parse(bytes, {
      ifd0: { pick: ['Orientation'] },
      exif: { pick: ['DateTimeOriginal'] },
      gps: false,
      reviveValues: false,
      translateValues: false,
    });
    if (typeof tags !== 'object' || tags === null) return null;
    const { DateTimeOriginal: taken, Orientation: orientation } = tags as Record<string, unknown>;
    const says: CameraSays = {};
    if (typeof taken === 'string' && /^[\d: ]{19}$/.test(taken)) says.taken = taken;
    if (typeof orientation === 'number' && orientation >= 1 && orientation <= 8) says.orientation = Math.trunc(orientation);
    return Object.keys(says).length === 0 ? null : says;
  } catch {
    return null;
  }
}
