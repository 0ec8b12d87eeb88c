import { toMark, type LayerProof } from '#lib/job/proof.ts';
import type { JobState } from '#lib/job/state.ts';

/**
 * Where a reading just kept is marked on the drawing, if proof is owed of a place there that it would answer: of the place it was asked for
 * (`spot`), or of the only one; where there are several and none was asked for, the person chooses. Null where nothing is to be marked.
 */
export function markHref(job: string, state: JobState, layers: readonly LayerProof[], id: string, spot: string | null): string | null {
  const surface = state.readings.find((one) => one.id === id)?.surface ?? null;
  const owed = layers
    .flatMap(({ items }) => items)
    .filter((item) => item.stand === 'owed' && toMark(item, state) === id)
    .filter((item) => surface === null || item.surfaces.some((one) => one.surface === surface));
  const item = owed.find((one) => one.spot === spot) ?? owed[0];
  if (item === undefined) return null;
  const at = item.spot !== null && (item.spot === spot || owed.length === 1) ? { spot: item.spot } : {};
  return `/job/${job}/draw/mark?${new URLSearchParams({ room: item.room.room, of: id, ...at })}`;
}
