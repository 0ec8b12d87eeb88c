import type { PhotoArea } from '#lib/record/kinds/photo.ts';
import type { JobState } from '#lib/job/state.ts';
import type { ToLay } from '#lib/state/register.svelte.ts';
import type { Point } from '#lib/vision/raster.ts';

/** A photo of a spot with its four corners: one layer of it. */
export interface LayerPhoto {
  readonly id: string;
  readonly kind: 'coverage' | 'transfer';
  readonly surface: string | null;
  readonly utc: string;
  readonly offsetMin: number;
  readonly photo: PhotoArea;
}

/** The photos with four marked corners of a surface, the oldest first. Those of one size are of the same marks. */
export function layersOf(job: JobState, surface: string | null): readonly LayerPhoto[] {
  const all = (['coverage', 'transfer'] as const).flatMap((kind) =>
    job.facts[kind].map(({ id, utc, offsetMin, data }) => ({ id, kind, surface: data.surface, utc, offsetMin, photo: data.photo })),
  );
  return all.filter((one) => one.surface === surface).toSorted((a, b) => Date.parse(a.utc) - Date.parse(b.utc));
}

/** How a layer is laid straight: by its own four corners. */
export function toLay({ id, photo }: LayerPhoto): ToLay {
  const marked = { quad: numbers(photo.corners), widthMm: Number(photo.widthMm), heightMm: Number(photo.heightMm) };
  return { id, sha256: photo.sha256, ask: { do: 'register', marked } };
}

function numbers(corners: PhotoArea['corners']): readonly [Point, Point, Point, Point] {
  const [a, b, c, d] = corners.map(([x, y]): Point => [Number(x), Number(y)]) as [Point, Point, Point, Point];
  return [a, b, c, d];
}
