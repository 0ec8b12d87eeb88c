import type { Surface } from '../record/kinds/setup.ts';
import type { JobState } from './state.ts';
import { layersOn } from './systems.ts';

/**
 * Where water vapour may be caught between two layers that stop it. Each is something to ask the designer, never a verdict: how much
 * is caught depends on climate, membrane and air, which the book does not know. Common practice, no source.
 * two-barriers: a membrane in front and a retarder behind. outside-two-barriers: the same on an outside wall, where frost or heat works
 * on it. outside-unknown: an outside wall behind which nobody has looked. steam: a room built to hold steam. steam-outside: its outside wall.
 */
export type CautionCode = 'two-barriers' | 'outside-two-barriers' | 'outside-unknown' | 'steam' | 'steam-outside';

export interface BarrierCaution {
  readonly code: CautionCode;
  readonly surface: Surface;
}

/** The cautions of a job, surface by surface, the weightier of two that say the same. */
export function barrierCautions(job: JobState): readonly BarrierCaution[] {
  return job.surfaces.flatMap((surface) => {
    const code = cautionOn(surface, job);
    return code === null ? [] : [{ code, surface }];
  });
}

export function cautionOn(surface: Surface, job: Pick<JobState, 'rooms' | 'ownSystems'>): CautionCode | null {
  if (surface.place === 'floor' || surface.place === 'curb' || !hasMembraneInFront(surface, job)) return null;
  const outside = surface.outside === 'yes';
  if (surface.retarder === 'yes') return outside ? 'outside-two-barriers' : 'two-barriers';
  const steam = job.rooms.some(({ room, steam: holds }) => room === surface.room && holds === true);
  if (steam) return outside ? 'steam-outside' : 'steam';
  return outside && surface.retarder !== 'no' ? 'outside-unknown' : null;
}

/** Sheets and coats lie on the board; a loose liner turns up behind it, and a tray leaves the wall as it is. */
function hasMembraneInFront(surface: Surface, job: Pick<JobState, 'ownSystems'>): boolean {
  return layersOn(surface, job).some((layer) => layer === 'sheets' || layer === 'coat');
}
