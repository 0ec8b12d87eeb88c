import { serve } from './bridge.ts';
import { shrink } from './shrink.ts';

/** Long side of a preview: two columns on a phone with a dense screen. */
const PREVIEW_PX = 480;

serve<Blob, Blob | null>(async (picture) => (await shrink(picture, PREVIEW_PX, [0.8]))?.jpeg ?? null);
