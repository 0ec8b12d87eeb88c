import { MEASURE_KINDS } from '#lib/job/measures.ts';
import { dimensionOf } from '#lib/measure/dimension.ts';
import type { ReadingOnPad } from '#lib/record/drafts.ts';
import type { Draft } from '#lib/record/kinds.ts';
import type { Measure, Reading } from '#lib/record/kinds/reading.ts';
import { EMPTY_PAD } from './pad.ts';

/** The instrument a measure is read with, where nobody says otherwise. */
export function howOf(what: Measure): Reading['how'] {
  if (what === 'wet-film') return 'comb';
  if (what === 'dry-film') return 'caliper';
  if (what === 'slope') return 'level';
  if (what === 'humidity' || what === 'moisture') return 'meter';
  if (what === 'air-temperature' || what === 'surface-temperature') return 'thermometer';
  return dimensionOf(MEASURE_KINDS[what].mm) === 'length' ? 'tape' : 'typed';
}

/** How many characters say a spot; more belongs in a note. */
export const SPOT_MAX = 200;

export function spotTooLong(pad: ReadingOnPad): boolean {
  return (pad.spot?.trim().length ?? 0) > SPOT_MAX;
}

/** The reading to keep. `shownBy` is the photo taken with it; a value typed from an earlier photo stays with that one. */
export function readingDraft(
  what: Measure,
  said: Reading['said'],
  pad: ReadingOnPad,
  run: string | null,
  shownBy: string | null = null,
): Draft {
  const fromPhoto = pad.fromPhoto === true && pad.shot !== undefined;
  const shot = fromPhoto ? pad.shot! : (shownBy ?? pad.shot);
  const spot = pad.spot?.trim().toWellFormed() ?? '';
  return {
    kind: 'reading',
    ...(run === null ? {} : { run }),
    refs: [shot, pad.attempt].filter((id) => id !== undefined),
    data: {
      what,
      surface: pad.surface,
      said,
      how: fromPhoto ? 'photo' : howOf(what),
      ...(spot === '' ? {} : { spot }),
      ...(pad.coat === undefined ? {} : { coat: pad.coat }),
      ...(pad.scale === undefined ? {} : { scale: pad.scale }),
      ...(shot === undefined ? {} : { shot }),
      ...(pad.attempt === undefined ? {} : { attempt: pad.attempt }),
      ...(pad.water === undefined ? {} : { water: pad.water }),
    },
  };
}

/** The pad after a reading is kept: empty, at the same place. */
export function afterKept(pad: ReadingOnPad): ReadingOnPad {
  return { ...pad, ...EMPTY_PAD, surface: pad.surface, spot: undefined, shot: undefined, fromPhoto: undefined };
}
