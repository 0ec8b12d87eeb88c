import type { Heard, Question } from '#lib/voice/hearing.ts';
import { serve } from './bridge.ts';
import { Listener } from './listener.ts';

/** A clip to be understood: 16,000 samples a second, from -1 to 1. Without a clip the engine is only made ready. */
export interface ListenOrder {
  readonly samples: Float32Array | null;
  readonly question: Question;
}

/** The app's own files, kept by the service worker like all others; they are read when first asked for. */
const MODEL = '/voice/en-us';
/** A copy of the package's: what a worker's bundle names beside itself is in no list the service worker sees. A test holds the two equal. */
const ENGINE = '/voice/soundswallower.web.wasm';

let opened: Promise<Listener> | null = null;

serve<ListenOrder, Heard | null>(async ({ samples, question }) => {
  opened ??= Listener.open(MODEL, ENGINE);
  // One that could not be read, as without signal before the cache was filled, is tried again at the next clip.
  const listener = await opened.catch((error: unknown) => {
    opened = null;
    throw error;
  });
  return samples === null ? null : listener.hear(samples, question);
});
