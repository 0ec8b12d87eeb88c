import * as m from '../words/compiled/messages.js';
import type { Block } from './blocks.ts';
import type { RecordDocument, RecordShot } from './record-document.ts';
import { grouped, sentence, type Speaker } from './speaker.ts';

/** Every photo of the log in reading order, numbered; one that cannot be shown keeps its place and its hash. */
export function photoBlocks({ shots }: RecordDocument, say: Speaker): Block[] {
  const { locale } = say;
  return [
    { block: 'heading', level: 1, text: m.record_part_photos({}, { locale }), aside: m.record_photos_note({}, { locale }) },
    photosBlock(shots, 3, say),
  ];
}

export function photosBlock(shots: readonly RecordShot[], columns: number, say: Speaker): Block {
  const { locale } = say;
  return {
    block: 'photos',
    columns,
    missing: m.record_photo_missing({}, { locale }),
    photos: shots.map((shot) => ({
      mark: String(say.photo(shot.id)),
      sha256: shot.sha256,
      printed: shot.printed !== null,
      alt: m.record_photo_alt({ number: say.photo(shot.id), step: stepText(shot, say), surface: say.surfaces(shot.surfaces) }, { locale }),
      lead: [...(shot.distance == null ? [] : [say.distance(shot.distance)]), stepText(shot, say), say.surfaces(shot.surfaces)]
        .map(sentence)
        .join(' '),
      caption: captionLines(shot, say).join('\n'),
    })),
  };
}

function captionLines(shot: RecordShot, say: Speaker): string[] {
  const { locale } = say;
  const shows = shot.shows.map(say.owed);
  return [
    ...(shows.length === 0 ? [] : [sentence(shows.join(', '))]),
    ...(shot.material === null ? [] : [sentence(say.lot(shot.material))]),
    ...(shot.pair !== null && say.photo(shot.pair) > 0 ? [m.record_same_place({ number: say.photo(shot.pair) }, { locale })] : []),
    [`${say.dayClock(shot.at)}, ${say.person(shot.by)}`, say.from(shot.from)].map(sentence).join(' '),
    ...(shot.sorted ? [] : [m.record_unsorted({}, { locale })]),
    ...(shot.cameraSays === null ? [] : [m.record_camera_says({ taken: shot.cameraSays }, { locale })]),
    `SHA-256 ${grouped(shot.sha256, 16)}`,
  ];
}

function stepText({ step, coat }: RecordShot, say: Speaker): string {
  const { locale } = say;
  if (step === null) return m.record_no_step({}, { locale });
  return coat === null ? say.step(step) : `${say.step(step)}, ${m.record_coat({ coat }, { locale })}`;
}
