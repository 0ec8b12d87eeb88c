/** In the place of the package `blob-polyfill`, which the recogniser imports and which asks a worker for a document it has not. */
export const Blob = globalThis.Blob;
