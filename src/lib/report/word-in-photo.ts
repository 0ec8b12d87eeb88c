import type { Homography } from '../vision/homography.ts';
import { project } from '../vision/homography.ts';
import { mapOf } from '../vision/surface.ts';
import * as m from '../words/compiled/messages.js';
import type { Block, Photo, PhotoOverlay } from './blocks.ts';
import type { RecordDocument, RecordInPhoto, RecordLine } from './record-document.ts';
import { photoUnder } from './photo-value.ts';
import { saidText } from './said-text.ts';
import { grouped, sentence, type Speaker } from './speaker.ts';

type Place = readonly [number, number];
type Quad = readonly [Place, Place, Place, Place];
const place = ([x, y]: readonly [string, string]): Place => [Number(x), Number(y)];

/** Each value computed in a photo over the picture it was computed in, with its interval, its method and who took it over. */
export function inPhotoBlocks(document: RecordDocument, say: Speaker): Block[] {
  const { inPhotos } = document;
  if (inPhotos.length === 0) return [];
  const { locale } = say;
  return [
    { block: 'heading', level: 2, text: m.record_in_photos({}, { locale }) },
    { block: 'paragraph', text: m.record_in_photos_note({}, { locale }) },
    {
      block: 'photos',
      columns: 2,
      missing: m.record_photo_missing({}, { locale }),
      photos: inPhotos.map((one) => photoOf(one, document, say)),
    },
  ];
}

function photoOf(one: RecordInPhoto, document: RecordDocument, say: Speaker): Photo {
  const { locale } = say;
  const number = say.photo(one.shot) ?? '?';
  const line = say.line(one.entry);
  const shot = document.shots.find(({ sha256 }) => sha256 === one.photo.sha256);
  const lead = leadText(one, document, line, say);
  return {
    mark: number,
    sha256: one.photo.sha256,
    printed: shot !== undefined && shot.printed !== null,
    alt: m.record_in_photo_alt({ number, what: lead }, { locale }),
    lead,
    caption: [
      ...underLines(one, document, line, say),
      ...(line === null ? [] : [`${say.entry(line)}, ${say.dayClock(line.at)}`]),
      `SHA-256 ${grouped(one.photo.sha256, 16)}`,
    ].join('\n'),
    over: overlayOf(one),
  };
}

function leadText(one: RecordInPhoto, { readings }: RecordDocument, line: RecordLine | null, say: Speaker): string {
  if (one.is === 'length') {
    const reading = readings.find(({ id }) => id === one.entry)!;
    return [`${say.measure(reading.what)}: ${say.value(reading)}`, say.verdict(reading.verdict)].map(sentence).join(' ');
  }
  const name = one.is === 'coverage' ? 'covered' : 'share';
  return sentence(`${say.field(one.is, name)}: ${fieldText(name, line, say)}`);
}

function fieldText(name: string, line: RecordLine | null, say: Speaker): string {
  const field = line?.said.find(({ field: one }) => one === name);
  return field === undefined || line === null ? '' : saidText(field, line, say);
}

function underLines(one: RecordInPhoto, { readings }: RecordDocument, line: RecordLine | null, say: Speaker): string[] {
  const { locale } = say;
  const mm = (value: string) => say.quantity({ value, to: null, unit: 'mm' });
  if (one.is === 'length') {
    const { reference } = one.photo;
    const reading = readings.find(({ id }) => id === one.entry)!;
    return [
      ...(reading.photo === undefined ? [] : photoUnder(reading.photo, reading.said.unit, say)),
      reference.kind === 'card'
        ? m.record_in_photo_card({ bar: mm(reference.barMm) }, { locale })
        : m.record_in_photo_rectangle({ width: mm(reference.widthMm), height: mm(reference.heightMm) }, { locale }),
      ...(one.lap === null ? [] : [`${say.field('reading', 'lap')}: ${say.choice('lap', one.lap)}`]),
    ];
  }
  const { widthMm, heightMm, method } = one.photo;
  const [low, high] = [fieldText('low', line, say), fieldText('high', line, say)];
  const confirmed = line?.said.find(({ field }) => field === 'confirmed');
  return [
    m.record_photo_interval({ interval: `${low}–${high}` }, { locale }),
    m.record_photo_method({ method }, { locale }),
    confirmed === undefined || line === null
      ? m.record_photo_unconfirmed({}, { locale })
      : m.record_photo_confirmed({ person: saidText(confirmed, line, say) }, { locale }),
    m.record_in_photo_area({ width: mm(widthMm), height: mm(heightMm) }, { locale }),
  ];
}

function overlayOf(one: RecordInPhoto): PhotoOverlay {
  const { width, height } = one.photo;
  if (one.is === 'length') {
    const { reference, from, to } = one.photo;
    const ends = [place(from), place(to)];
    return {
      width,
      height,
      lines: [
        { points: reference.found.map(place), isClosed: true, look: 'found' },
        { points: ends, isClosed: false, look: 'measured' },
      ],
      taps: [...ends, ...(reference.tapped ?? []).map(place)],
      rings: [],
    };
  }
  const quad = one.photo.corners.map(place) as unknown as Quad;
  const map = mapOf({ quad, widthMm: Number(one.photo.widthMm), heightMm: Number(one.photo.heightMm) });
  return {
    width,
    height,
    lines: [{ points: quad, isClosed: true, look: 'found' }, ...(one.is === 'transfer' && map !== null ? worstSquare(one.worst, map) : [])],
    taps: one.taps.map(place),
    rings: one.is === 'coverage' && map !== null ? one.misses.map((miss, i) => ringOf(miss, i, map)) : [],
  };
}

/** Side of the worst square, in mm. */
const WORST_MM = 100;

function worstSquare(worst: Extract<RecordInPhoto, { is: 'transfer' }>['worst'], map: Homography): PhotoOverlay['lines'] {
  if (worst === null) return [];
  const [x, y] = place([worst.x, worst.y]);
  const corners: Place[] = [[x, y], [x + WORST_MM, y], [x + WORST_MM, y + WORST_MM], [x, y + WORST_MM]]; // prettier-ignore
  return [{ points: corners.map((corner) => project(map, [...corner])), isClosed: true, look: 'worst' }];
}

function ringOf(
  { x, y, diameter, struck }: Extract<RecordInPhoto, { is: 'coverage' }>['misses'][number],
  i: number,
  map: Homography,
): PhotoOverlay['rings'][number] {
  const [cx, cy] = place([x, y]);
  const at = project(map, [cx, cy]);
  const edge = project(map, [cx + Number(diameter ?? '0') / 2, cy]);
  return { n: i + 1, at, radius: Math.hypot(edge[0] - at[0], edge[1] - at[1]), isStruck: struck === true };
}
