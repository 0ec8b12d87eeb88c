import { featuresNear } from '../job/behind/nearest.ts';
import { strataAt, type Stratum, type TouchedPlace } from '../job/behind/strata.ts';
import { callbacks, lookedAt, type Callback } from '../job/callback/callbacks.ts';
import { shapeOf } from '../job/drawing/shape.ts';
import type { JobState } from '../job/state.ts';
import type { RecordCallback } from './record-document.ts';

/** Layers that the photos of a place are taken from, the outermost first, and photos of each. */
const PHOTOS = 2;
/** What lies nearest to a place, told of each. */
const NEAREST = 2;

/** Callbacks with what was tried and, of each place that was looked at, what lies behind it. */
export function recordCallbacks(job: JobState): RecordCallback[] {
  return callbacks(job).map((one) => recordCallback(one, job));
}

function recordCallback({ fact, isOpen, isolations }: Callback, job: JobState): RecordCallback {
  const { shows = null, cause = null } = fact.data;
  return {
    entry: fact.id,
    open: isOpen,
    shows,
    cause,
    tests: isolations.map(({ begun, outcome }) => ({
      entry: begun.id,
      test: begun.data.test,
      outcome,
      at: { utc: begun.utc, offsetMin: begun.offsetMin },
    })),
    places: lookedAt(fact.id, job).map((at) => placeNode(at, job)),
  };
}

function placeNode(at: TouchedPlace, job: JobState): RecordCallback['places'][number] {
  const drawing = job.drawings.find(({ room }) => room === at.room)!;
  const shape = shapeOf(drawing.data);
  const near = shape.ok ? featuresNear(job, shape.value, at).slice(0, NEAREST) : [];
  const parts = (size: number) => Math.round(size);
  return {
    room: at.room,
    unit: at.unit,
    wall: at.wall,
    x: parts(at.x),
    y: parts(at.y),
    things: drawing.data.things.map(({ thing }) => thing),
    near: near.map(({ is, id, away, shownBy, lap }) => ({
      is,
      id,
      away: parts(away),
      shown: shownBy.length,
      lap: lap?.reading.id ?? null,
    })),
    layers: strataAt(job, at).map(layerNode),
  };
}

function layerNode({ layer, coat, worked, photos, readings, missing }: Stratum): RecordCallback['places'][number]['layers'][number] {
  return {
    layer,
    coat,
    days: worked.map(({ utc, offsetMin }) => ({ utc, offsetMin })),
    photos: photos.slice(0, PHOTOS).map(({ shot }) => shot.id),
    holding: photos.filter(({ area }) => area !== null).length,
    morePhotos: Math.max(0, photos.length - PHOTOS),
    readings: readings.map(({ reading }) => reading.id),
    missing,
  };
}
