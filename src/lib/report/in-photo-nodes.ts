import type { JobState } from '../job/state.ts';
import type { RecordInPhoto } from './record-document.ts';

/** Everything that was measured in a photo: lengths, then coats, then mortar, each in the order of the log. */
export function recordInPhotos({ readings, facts }: JobState): RecordInPhoto[] {
  return [
    ...readings.flatMap(({ id, shot, photo, lap }): RecordInPhoto[] =>
      photo === null || shot === null ? [] : [{ entry: id, shot, is: 'length', photo, lap: lap ?? null }],
    ),
    ...facts.coverage.map(({ id, data: { shot, photo, film, bare, misses } }): RecordInPhoto => ({
      entry: id,
      shot,
      is: 'coverage',
      photo,
      taps: [...film, ...bare],
      misses: [...misses],
    })),
    ...facts.transfer.map(({ id, data: { shot, photo, mortar, sheet, worst } }): RecordInPhoto => ({
      entry: id,
      shot,
      is: 'transfer',
      photo,
      taps: [mortar, sheet],
      worst,
    })),
  ];
}
