import type { Surface } from '#lib/record/kinds/setup.ts';
import type { JobState } from '#lib/job/state.ts';
import { PLACE, SUBSTRATE, SYSTEM } from '#lib/words/codes.ts';
import * as m from '#lib/words/compiled/messages.js';
import { lengthText } from '#lib/words/length.ts';

/** A system by its word, or by the name the crew gave it. */
export function systemText(system: string, job: Pick<JobState, 'ownSystems'>): string {
  const own = job.ownSystems.find((one) => `own:${one.system}` === system);
  if (own !== undefined) return own.name;
  return Object.hasOwn(SYSTEM, system) ? SYSTEM[system as keyof typeof SYSTEM]() : system;
}

/** Place, system, size and substrate of a surface on one line, as far as they are said. */
export function surfaceNote(surface: Surface, job: Pick<JobState, 'ownSystems'>, lang: 'en' | 'es'): string {
  const sizes = [surface.width, surface.height].flatMap((size) => (size === undefined ? [] : [lengthText(size, lang)]));
  return [
    PLACE[surface.place](),
    systemText(surface.system, job),
    ...(sizes.length === 0 ? [] : [sizes.join(' × ')]),
    ...(surface.substrate === undefined ? [] : [SUBSTRATE[surface.substrate]()]),
    ...(surface.outside === 'yes' ? [m.field_outside()] : []),
  ].join(', ');
}
