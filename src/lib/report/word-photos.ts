import * as m from '../words/compiled/messages.js';
import type { Block } from './blocks.ts';
import type { RecordDocument, RecordShot } from './record-document.ts';
import { grouped, sentence, type Speaker } from './speaker.ts';

/** Every photo of the log in reading order, numbered; one that cannot be shown keeps its place and its hash. */
export function photoBlocks({ shots }: RecordDocument, say: Speaker): Block[] {
  const { locale } = say;
  return [
    { block: 'heading', level: 1, text: m.record_part_photos({}, { locale }), aside: m.record_photos_note({}, { locale }) },
    {
      block: 'photos',
      missing: m.record_photo_missing({}, { locale }),
      photos: shots.map((shot) => ({
        number: say.photo(shot.id),
        sha256: shot.sha256,
        printed: shot.printed !== null,
        alt: m.record_photo_alt({ number: say.photo(shot.id), step: stepText(shot, say), surface: say.surface(shot.surface) }, { locale }),
        lead: `${sentence(stepText(shot, say))} ${sentence(say.surface(shot.surface))}`,
        caption: [
          `${sentence(say.dayClock(shot.at))} ${sentence(say.from(shot.from))}`,
          ...(shot.cameraSays === null ? [] : [m.record_camera_says({ taken: shot.cameraSays }, { locale })]),
          `SHA-256 ${grouped(shot.sha256, 16)}`,
        ].join('\n'),
      })),
    },
  ];
}

function stepText({ step }: RecordShot, say: Speaker): string {
  return step === null ? m.record_no_step({}, { locale: say.locale }) : say.step(step);
}
