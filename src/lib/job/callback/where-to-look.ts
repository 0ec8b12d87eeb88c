import type { Point } from '../../measure/plane.ts';
import { featuresNear, type Feature } from '../behind/nearest.ts';
import type { TouchedPlace } from '../behind/strata.ts';
import { marksIn, type DrawnPlace } from '../drawing/marks.ts';
import { besideWall, type RoomShape } from '../drawing/shape.ts';
import { judgeReading, limitBase, readingBase } from '../judged.ts';
import type { Fact, JobState, Measured } from '../state.ts';
import type { IsolationTest } from '../../record/kinds/callback.ts';
import { outcomeOfTest, type Callback } from './callbacks.ts';

/** Why a place is on the list, each a fact of the book. The weakest proof first: where two places lie as far, this order decides. */
export const REASONS = [
  'got-wetter',
  'wetter-unused',
  'not-tried',
  'outside',
  'deviation',
  'repaired',
  'not-proven',
  'not-shown',
  'lap-least',
  'stayed-same',
] as const;
export type Reason = (typeof REASONS)[number];

/** A part of the shower that a test of the series wets by itself. */
type Zone = 'supply' | 'drain' | 'floor' | 'walls' | 'valve' | 'curb';
const TEST_OF: Readonly<Record<Zone, IsolationTest>> = {
  supply: 'supply',
  drain: 'drain-line',
  floor: 'pan',
  walls: 'walls',
  valve: 'valve',
  curb: 'curb-ends',
};

/** One place to look at. It is no finding: the book says where proof is weak, not where water goes. */
export interface PlaceToLook {
  readonly what:
    | { readonly is: 'outside-membrane'; readonly test: 'supply' | 'drain-line' }
    | { readonly is: 'feature'; readonly feature: Feature; readonly wall: number | null }
    | { readonly is: 'reading'; readonly reading: Measured }
    | { readonly is: 'stated'; readonly fact: Fact<'deviation'> | Fact<'repair'> };
  readonly reasons: readonly Reason[];
  /** Through the room, in ten-thousandths, from where water shows; null where no place is known. */
  readonly away: number | null;
}

/** So much is looked at by one who kneels: how far is told in these steps, in inches. Common sense, no source. */
const STEPS_IN = [12, 36, 72] as const;
const MOST = 12;

/**
 * Where to look first, from the place where water shows, what the tests showed, and how weak the proof of each part is. First what got
 * wetter in its own test, then what was not tried, last what stayed as it was; in these by the step of distance, the weakness of proof, the
 * distance. Causes outside the membrane lead their group: they need no opening.
 */
export function whereToLook(job: JobState, shape: RoomShape, at: TouchedPlace, callback: Callback | null): PlaceToLook[] {
  const shows = callback?.fact.data.shows;
  const origin = inRoom(at, shape);
  // Seen straight on from the place, so that the nearest point on each plane is the nearest in the room.
  const seen = planesOf(shape).flatMap((wall) =>
    featuresNear(job, shape, { ...at, wall, ...onPlane(origin, wall, shape) }).map((feature) => ({ feature, wall })),
  );
  const features = [...Map.groupBy(seen, ({ feature, wall }) => jointOf(feature, wall)).values()].map(merged);
  const awayFrom = (place: DrawnPlace) => distance3(origin, inRoom(place, shape));
  const least = leastLap(features.map(({ feature }) => feature));
  const marks = marksIn(job, at.room, at.unit);
  const markedAway = (id: string): number | null => {
    const places = marks.filter(({ of }) => of === id).map(awayFrom);
    return places.length === 0 ? null : Math.min(...places);
  };

  const outside = (['supply', 'drain-line'] as const).map((test): PlaceToLook => ({
    what: { is: 'outside-membrane', test },
    reasons: tried(test, callback),
    away: null,
  }));
  const parts = features.map(({ feature, wall }): PlaceToLook => {
    const away = awayFrom({ wall, ...feature.to });
    const proof: Reason[] =
      feature.lap?.judged.verdict === 'outside'
        ? ['outside']
        : feature.lap?.judged.verdict === 'not-proven'
          ? ['not-proven']
          : feature.shownBy.length === 0
            ? ['not-shown']
            : feature === least
              ? ['lap-least']
              : [];
    return { what: { is: 'feature', feature, wall }, reasons: [...tried(TEST_OF[zoneOf(feature, wall, shape)], callback), ...proof], away };
  });
  const onFeature = new Set(features.flatMap(({ feature }) => (feature.lap === null ? [] : [feature.lap.reading.id])));
  const readings = job.readings
    .filter((one) => !onFeature.has(one.id) && judgeReading(one, job.limits).verdict === 'outside')
    .map((reading): PlaceToLook => ({ what: { is: 'reading', reading }, reasons: ['outside'], away: markedAway(reading.id) }));
  const stated = [...job.facts.deviation, ...job.facts.repair].map((fact): PlaceToLook => ({
    what: { is: 'stated', fact },
    reasons: ['of' in fact.data ? 'repaired' : 'deviation'],
    away: markedAway(fact.id),
  }));
  const worthALook = ({ reasons }: PlaceToLook) => reasons.some((one) => one !== 'not-tried' && one !== 'stayed-same');
  const inches = (away: number) => (at.unit === 'in' ? away / 10_000 : away / 254_000);
  const step = ({ away, what }: PlaceToLook) => {
    if (what.is === 'outside-membrane') return -1;
    // It may be anywhere on its surface: as far as a part within reach.
    if (away === null) return 1;
    const found = STEPS_IN.findIndex((most) => inches(away) <= most);
    const near = found < 0 ? STEPS_IN.length : found;
    // Water beside the curb or at the foot of a wall comes out at the lowest edge there: what is higher up stands a step farther.
    return near + (what.is === 'feature' && isFarFromShows(what.feature, what.wall, shows, shape) ? 1 : 0);
  };
  const ofTest: readonly Reason[] = ['got-wetter', 'wetter-unused', 'not-tried'];
  const group = ({ reasons }: PlaceToLook) =>
    reasons.some((one) => one === 'got-wetter' || one === 'wetter-unused') ? 0 : reasons.includes('stayed-same') ? 2 : 1;
  const weakness = ({ reasons }: PlaceToLook) => Math.min(...reasons.map((one) => REASONS.indexOf(one)));
  const provenWeak = (place: PlaceToLook) => weakness({ ...place, reasons: place.reasons.filter((one) => !ofTest.includes(one)) });
  return [...outside, ...[...parts, ...readings, ...stated].filter((place) => worthALook(place))]
    .toSorted(
      (a, b) =>
        group(a) - group(b) ||
        step(a) - step(b) ||
        compare(provenWeak(a), provenWeak(b)) ||
        compare(a.away ?? Infinity, b.away ?? Infinity),
    )
    .slice(0, MOST);
}

const compare = (a: number, b: number) => (a === b ? 0 : a < b ? -1 : 1);

function tried(test: IsolationTest, callback: Callback | null): Reason[] {
  const outcome = callback === null ? null : outcomeOfTest(callback, test);
  if (outcome === 'wetter') return ['got-wetter'];
  // Wetter while nobody ran water: no shower water, but what stands under pressure.
  if (test === 'supply' && callback !== null && outcomeOfTest(callback, 'unused') === 'wetter') return ['wetter-unused'];
  return outcome === 'same' || outcome === 'drier' ? ['stayed-same'] : ['not-tried'];
}

const planesOf = ({ walls }: RoomShape): (number | null)[] => [
  null,
  ...walls.flatMap(({ as }, i) => (as === 'full' || as === 'low' ? [i] : [])),
];

interface OnPlane {
  readonly feature: Feature;
  readonly wall: number | null;
}

/** A joint is an edge of two planes: by this they are one. */
function jointOf({ is, id }: Feature, wall: number | null): string {
  if (is !== 'joint') return `${wall} ${id}`;
  return id === 'floor' ? `wall-${wall}` : id;
}

/** What was marked on either plane shows the joint; of two laps the one that does not hold counts. */
function merged(both: readonly OnPlane[]): OnPlane {
  const { feature, wall } = both.find((one) => one.feature.lap !== null) ?? both[0]!;
  const laps = both.flatMap((one) => (one.feature.lap === null ? [] : [one.feature.lap]));
  const lap = laps.find(({ judged }) => judged.verdict !== 'within') ?? laps[0] ?? null;
  return { wall, feature: { ...feature, lap, shownBy: [...new Set(both.flatMap((one) => one.feature.shownBy))] } };
}

function zoneOf({ is, id }: Feature, wall: number | null, { walls }: RoomShape): Zone {
  const wallOf = /^wall-(\d+)$/.exec(id);
  const corner = /^corner-(\d+)/.exec(id);
  const isCurb = (i: number) => walls[(i + walls.length) % walls.length]?.as === 'curb';
  if (wallOf !== null && isCurb(Number(wallOf[1]))) return 'curb';
  if (wall === null && corner !== null && (isCurb(Number(corner[1])) || isCurb(Number(corner[1]) - 1))) return 'curb';
  if (is === 'collar' && wall !== null) return 'valve';
  return wall === null || id === 'floor' ? 'floor' : 'walls';
}

type Shows = NonNullable<Callback['fact']['data']['shows']>;

function isFarFromShows(feature: Feature, wall: number | null, shows: Shows | undefined, shape: RoomShape): boolean {
  const zone = zoneOf(feature, wall, shape);
  if (shows === 'outside-curb') return zone !== 'curb' && zone !== 'floor';
  return shows === 'wall-base' && wall !== null && feature.id !== 'floor';
}

/** Of the laps that hold, the one with the least to spare. */
function leastLap(features: readonly Feature[]): Feature | null {
  const held = features.flatMap((feature) => {
    const { lap } = feature;
    if (lap === null || lap.judged.verdict !== 'within' || lap.judged.limit?.min == null) return [];
    return [{ feature, spare: readingBase(lap.reading.said).from - limitBase(lap.judged.limit).min! }];
  });
  return held.toSorted((a, b) => a.spare - b.spare)[0]?.feature ?? null;
}

interface Place3 extends Point {
  readonly z: number;
}

/** A place in the room: on a wall as far along and as high up as it is. */
function inRoom({ wall, x, y }: DrawnPlace, { walls }: RoomShape): Place3 {
  const one = wall === null ? undefined : walls[wall];
  if (one === undefined) return { x, y, z: 0 };
  return { ...besideWall(one, x, 0), z: y };
}

function distance3(a: Place3, b: Place3): number {
  return Math.hypot(a.x - b.x, a.y - b.y, a.z - b.z);
}

function onPlane({ x, y, z }: Place3, wall: number | null, { walls }: RoomShape): Point {
  const one = wall === null ? undefined : walls[wall];
  if (one === undefined) return { x, y };
  const [dx, dy] = [(one.to.x - one.from.x) / one.length, (one.to.y - one.from.y) / one.length];
  return { x: (x - one.from.x) * dx + (y - one.from.y) * dy, y: z };
}
