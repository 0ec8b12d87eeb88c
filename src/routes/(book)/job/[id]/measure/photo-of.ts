import type { PhotoOf } from '#lib/job/in-photo.ts';
import type { Shot } from '#lib/job/state.ts';
import type { OpenJob } from '#lib/state/job.svelte.ts';

/** What an entry says of the photo it was measured in, taken over by whoever holds the phone. Null while the photo is not open. */
export function photoOf(
  job: OpenJob,
  shot: Shot,
  surface: string | null,
  photo: { readonly width: number; readonly height: number } | null,
  method: string,
): PhotoOf | null {
  if (photo === null) return null;
  return {
    shot: shot.id,
    run: shot.run,
    surface,
    sha256: shot.picture.sha256,
    width: photo.width,
    height: photo.height,
    method,
    confirmed: job.person,
  };
}
