import type { LimitRow, NewJob } from '#lib/record/setup-drafts.ts';
import * as m from '#lib/words/compiled/messages.js';

/** The form as it first stands: the surfaces most showers have, and a row for each limit that matters most, all of them empty. */
export function firstForm(newId: () => string): NewJob {
  const surface = (name: string, place: 'wall' | 'floor') => ({ surface: newId(), name, place, system: null });
  const limit = (what: LimitRow['what']) => ({ what, min: '', max: '', sourceKind: 'data-sheet' as const, sourceText: '' });
  return {
    name: '',
    address: '',
    person: '',
    permit: '',
    units: 'in',
    room: '',
    system: 'sheet-and-liquid',
    surfaces: [
      surface(m.first_wall_back(), 'wall'),
      surface(m.first_wall_left(), 'wall'),
      surface(m.first_wall_right(), 'wall'),
      surface(m.place_floor(), 'floor'),
    ],
    limits: [limit('overlap'), limit('band-lap'), limit('wet-film'), limit('flood-depth')],
    proof: 'core',
  };
}
