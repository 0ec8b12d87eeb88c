import { roomsOf, surfacesIn, toMark, type LayerProof } from '#lib/job/proof.ts';
import type { JobState } from '#lib/job/state.ts';

/**
 * Where a reading or photo just kept is marked on the drawing, if proof is owed of a place there that it would answer: of the place it was asked
 * for (`spot`), or of the only one; where there are several and none was asked for, the person chooses. Null where nothing is to be marked.
 */
export function markHref(
  job: string,
  state: JobState,
  layers: readonly LayerProof[],
  id: string,
  spot: string | null,
  room: string | null = null,
): string | null {
  const surfaces = surfacesOf(state, id);
  const owed = layers
    .flatMap(({ items }) => items)
    .filter((item) => item.stand === 'owed' && toMark(item, state) === id)
    .filter((item) => surfaces.length === 0 || item.surfaces.some((one) => surfaces.includes(one.surface)));
  const item = owed.find((one) => one.spot === spot && (room === null || one.room.room === room)) ?? owed[0];
  if (item === undefined) return null;
  const at = item.spot !== null && (item.spot === spot || owed.length === 1) ? { spot: item.spot } : {};
  return `/job/${job}/draw/mark?${new URLSearchParams({ room: item.room.room, of: id, ...at })}`;
}

/**
 * The same of a photo, which may be marked though no place owes it: in its own room where that is drawn. `at` is the
 * `ROOM@SPOT` it was asked for. Null while nothing is drawn.
 */
export function photoMarkHref(job: string, state: JobState, layers: readonly LayerProof[], id: string, at: string | null): string | null {
  const [room = null, spot = null] = at?.split('@') ?? [];
  const surfaces = surfacesOf(state, id);
  const own = roomsOf(state).find((room) => surfacesIn(room, state).some((one) => surfaces.includes(one.surface)));
  const drawn = state.drawings.find(({ room }) => room === own?.room) ?? state.drawings.at(-1);
  if (drawn === undefined) return null;
  return markHref(job, state, layers, id, spot, room) ?? `/job/${job}/draw/mark?${new URLSearchParams({ room: drawn.room, of: id })}`;
}

function surfacesOf(state: JobState, id: string): readonly string[] {
  const surface = state.readings.find((one) => one.id === id)?.surface ?? null;
  return surface === null ? (state.shots.find((one) => one.id === id)?.surfaces ?? []) : [surface];
}
