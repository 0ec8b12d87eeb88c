import type { PhotoArea } from '#lib/record/kinds/photo.ts';
import type { JobState } from '#lib/job/state.ts';
import type { OpenJob } from '#lib/state/job.svelte.ts';
import { Measuring } from '#lib/state/measuring.svelte.ts';
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

/** Layers brought into register one after the other: one big photo is open at a time, and what is kept of each is small. */
export class Register {
  readonly #job: OpenJob;
  #seen: ReadonlyMap<string, ImageBitmap | null> = $state.raw(new Map());
  #busy = $state(false);
  #left = false;

  constructor(job: OpenJob) {
    this.#job = job;
  }

  get busy() {
    return this.#busy;
  }
  /** A layer straight on; null for one that cannot be shown, undefined while it is not made yet. */
  of(layer: LayerPhoto | undefined): ImageBitmap | null | undefined {
    return layer === undefined ? undefined : this.#seen.get(layer.id);
  }

  async make(layers: readonly LayerPhoto[]): Promise<void> {
    this.#busy = true;
    for (const { id, photo } of layers) {
      if (this.#left || this.#seen.has(id)) continue;
      const measuring = new Measuring(() => this.#job.blob(photo.sha256));
      await measuring.open();
      const marked = { quad: numbers(photo.corners), widthMm: Number(photo.widthMm), heightMm: Number(photo.heightMm) };
      const seen = measuring.stand === 'open' ? await measuring.ask({ do: 'register', marked }) : null;
      measuring.close();
      this.#seen = new Map([...this.#seen, [id, seen ?? null]]);
    }
    this.#busy = false;
  }

  leave(): void {
    this.#left = true;
    for (const bitmap of this.#seen.values()) bitmap?.close();
  }
}

function numbers(corners: PhotoArea['corners']): readonly [Point, Point, Point, Point] {
  const [a, b, c, d] = corners.map(([x, y]): Point => [Number(x), Number(y)]) as [Point, Point, Point, Point];
  return [a, b, c, d];
}
