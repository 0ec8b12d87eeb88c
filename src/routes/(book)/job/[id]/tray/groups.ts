import type { Shot } from '#lib/job/state.ts';
import { takenTogether } from '#lib/job/tray.ts';
import type { TileShot } from '#lib/ui/photo/tile.ts';
import * as m from '#lib/words/compiled/messages.js';
import { clockText, dayText } from '#lib/words/time.ts';

type Lang = 'en' | 'es';

/** Photos taken close together, and when, as the screen says it; the day only where it is not `today`, which is an instant like theirs. */
export interface GroupView {
  readonly key: string;
  readonly title: string;
  readonly shots: readonly TileShot[];
}

export function groupViews(
  shots: readonly Shot[],
  today: { utc: string; offsetMin: number },
  lang: Lang,
  surfaceName: (id: string) => string,
): GroupView[] {
  return takenTogether(shots).map((group) => {
    const [first, last] = [group.at(-1)!, group[0]!];
    const [from, to] = [first, last].map(({ utc, offsetMin }) => clockText(utc, offsetMin, lang)) as [string, string];
    const day = dayText(last.utc, last.offsetMin, lang);
    const span = from === to ? from : m.tray_span({ from, to });
    return {
      key: last.id,
      title: day === dayText(today.utc, today.offsetMin, lang) ? span : `${day} ${span}`,
      shots: group.map((shot) => tile(shot, lang, surfaceName)),
    };
  });
}

function tile({ id, picture, utc, offsetMin, surfaces }: Shot, lang: Lang, surfaceName: (id: string) => string): TileShot {
  const time = clockText(utc, offsetMin, lang);
  return { id, sha256: picture.sha256, time, name: [m.tray_photo_at({ time }), ...surfaces.map(surfaceName)].join(', ') };
}
