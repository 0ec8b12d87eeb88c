import type { SaidQuantity } from '../job/said-field.ts';
import * as m from '../words/compiled/messages.js';
import type { RecordReading } from './record-document.ts';
import type { Speaker } from './speaker.ts';

/** Below a value computed in a photo: its interval, by what method, and who took it over. */
export function photoUnder(
  { low, high, method, plane, confirmed }: NonNullable<RecordReading['photo']>,
  unit: SaidQuantity['unit'],
  say: Speaker,
) {
  const { locale } = say;
  return [
    m.record_photo_interval({ interval: say.quantity({ value: low, to: high, unit }) }, { locale }),
    ...(plane === null ? [m.record_photo_plane_not_shown({}, { locale })] : []),
    m.record_photo_method({ method }, { locale }),
    confirmed === null
      ? m.record_photo_unconfirmed({}, { locale })
      : m.record_photo_confirmed({ person: say.person(confirmed) }, { locale }),
  ];
}
