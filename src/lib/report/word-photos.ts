import type { Layer } from '../job/systems.ts';
import * as m from '../words/compiled/messages.js';
import type { Block, Photo } from './blocks.ts';
import { photoGroups, type PhotoGroup } from './photo-order.ts';
import type { RecordDocument, RecordShot } from './record-document.ts';
import { grouped, sentence, type Speaker } from './speaker.ts';
import { inPhotoBlocks } from './word-in-photo.ts';

/** Every photo, layer by layer, numbered: those of one place side by side, wide to close. One that cannot be shown keeps its place and its hash. */
export function photoBlocks(document: RecordDocument, say: Speaker): Block[] {
  const { locale } = say;
  const { shots, layers } = document;
  const groups = Map.groupBy(photoGroups(shots), ({ layer }) => layer);
  const order = layers.map(({ layer }) => layer);
  const name = (layer: Layer | null) =>
    layer === null
      ? m.record_photos_loose({}, { locale })
      : order.includes(layer)
        ? `${order.indexOf(layer) + 1} ${say.layer(layer)}`
        : say.layer(layer);
  return [
    { block: 'heading', level: 1, text: m.record_part_photos({}, { locale }), aside: m.record_photos_note({}, { locale }) },
    ...[...groups].flatMap(([layer, on]): Block[] => [{ block: 'heading', level: 2, text: name(layer) }, ...groupBlocks(on, say)]),
    ...inPhotoBlocks(document, say),
  ];
}

function groupBlocks(groups: readonly PhotoGroup[], say: Speaker): Block[] {
  const missing = m.record_photo_missing({}, { locale: say.locale });
  const chains = groups.filter(({ shots }) => shots.length > 1);
  const single = groups.flatMap(({ shots }) => (shots.length === 1 ? shots : []));
  return [
    ...(chains.length === 0
      ? []
      : [{ block: 'chains' as const, missing, chains: chains.map(({ shots }) => shots.map((shot) => photoOf(shot, say))) }]),
    ...(single.length === 0 ? [] : [photosBlock(single, 3, say)]),
  ];
}

export function photosBlock(shots: readonly RecordShot[], columns: number, say: Speaker): Block {
  return {
    block: 'photos',
    columns,
    missing: m.record_photo_missing({}, { locale: say.locale }),
    photos: shots.map((shot) => photoOf(shot, say)),
  };
}

function photoOf(shot: RecordShot, say: Speaker): Photo {
  const { locale } = say;
  const number = say.photo(shot.id) ?? '';
  return {
    mark: number,
    sha256: shot.sha256,
    printed: shot.printed !== null,
    alt: m.record_photo_alt({ number, step: stepText(shot, say), surface: say.surfaces(shot.surfaces) }, { locale }),
    lead: [...(shot.distance == null ? [] : [say.distance(shot.distance)]), stepText(shot, say), say.surfaces(shot.surfaces)]
      .map(sentence)
      .join(' '),
    caption: captionLines(shot, say).join('\n'),
  };
}

function captionLines(shot: RecordShot, say: Speaker): string[] {
  const { locale } = say;
  const shows = shot.shows.map(say.owed);
  return [
    ...(shows.length === 0 ? [] : [sentence(shows.join(', '))]),
    ...(shot.material === null ? [] : [sentence(say.lot(shot.material))]),
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
