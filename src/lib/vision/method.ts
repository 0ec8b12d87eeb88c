/** Version of the methods of this room: raised whenever a figure that a photo gives may come out otherwise. Kept with every value. */
export const METHOD_VERSION = '2026-11-26.5';
