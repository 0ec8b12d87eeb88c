import type { Material, Surface } from '../../record/kinds/setup.ts';
import { distanceTo, distanceToArea, marksIn, type DrawnPlace, type MarkedArea } from '../drawing/marks.ts';
import { shapeOf } from '../drawing/shape.ts';
import { judgeReading, type Judged } from '../judged.ts';
import { proofOwed, surfacesIn, roomsOf } from '../proof.ts';
import type { Fact, JobState, Measured, Run, Shot } from '../state.ts';
import { LAYER_OF_STEP, LAYERS, layersOn, type Layer } from '../systems.ts';

/** A touched place of a room's drawing; lengths in ten-thousandths of the drawing's unit. */
export interface TouchedPlace extends DrawnPlace {
  readonly room: string;
  readonly unit: 'in' | 'mm';
}

/** How far an entry's mark lies from the place; null where nobody marked it: it is of the same surface, no more is known. */
interface Away {
  readonly away: number | null;
}
/** Of a photo besides: the marked area that holds the place, its corners in the photo known or not. */
interface Shows extends Away {
  readonly area: MarkedArea | null;
}

/** One layer at a place: what the book shows of it there. */
export interface Stratum {
  readonly layer: Layer;
  /** Of a coat. */
  readonly coat: number | null;
  readonly runs: readonly Run[];
  /** When it was worked on, and by whom: its runs, and what was stated of it without one. */
  readonly worked: readonly { readonly utc: string; readonly offsetMin: number; readonly by: string }[];
  /** Those whose area holds the place first, then the nearest, those without a mark last; the newest of equals first. */
  readonly photos: readonly (Shows & { readonly shot: Shot })[];
  readonly readings: readonly (Away & { readonly reading: Measured; readonly judged: Judged })[];
  readonly lots: readonly Material[];
  readonly deviations: readonly (Away & { readonly of: Fact<'deviation'> | Fact<'repair'> })[];
  /** Owed items of these surfaces that nothing shows. */
  readonly missing: number;
}

/**
 * The surfaces a place of the drawing can lie on: those that entries marked on the same plane are of; without such marks every surface of
 * the room that is of its kind, as a drawing numbers walls and a job names them.
 */
export function surfacesAt(job: JobState, at: TouchedPlace): readonly Surface[] {
  const room = roomsOf(job).find((one) => one.room === at.room);
  if (room === undefined) return [];
  const inRoom = surfacesIn(room, job);
  const kind = inRoom.filter(({ place }) =>
    at.wall === null ? place !== 'wall' && place !== 'niche' : place === 'wall' || place === 'niche',
  );
  const marked = new Set(
    marksIn(job, at.room, at.unit)
      .filter(({ wall }) => wall === at.wall)
      .flatMap(({ of }) => surfacesOfEntry(of, job)),
  );
  const named = kind.filter(({ surface }) => marked.has(surface));
  const there = named.length > 0 ? named : kind;
  const near = there.filter(({ place }) => place !== 'curb' || isByCurb(job, at));
  return near.length > 0 ? near : there;
}

/** A curb is on the floor's drawing: from this far on a place is of the floor alone. Common sense, no source. */
const BY_CURB = { in: 60_000, mm: 1_500_000 } as const;

function isByCurb(job: JobState, at: TouchedPlace): boolean {
  const drawing = job.drawings.find(({ room }) => room === at.room);
  const shape = drawing === undefined ? null : shapeOf(drawing.data);
  if (shape?.ok !== true) return true;
  return shape.value.walls.some(({ as, from, to }) => as === 'curb' && distanceTo(from, to, at) <= BY_CURB[at.unit]);
}

function surfacesOfEntry(id: string, job: JobState): readonly string[] {
  const shot = job.shots.find((one) => one.id === id);
  if (shot !== undefined) return shot.surfaces;
  const reading = job.readings.find((one) => one.id === id);
  return reading?.surface === null || reading === undefined ? [] : [reading.surface];
}

/** The layers at a place, from the substrate inwards: those these surfaces have by their system, and any the crew worked on besides. */
export function strataAt(job: JobState, at: TouchedPlace, surfaces: readonly Surface[] = surfacesAt(job, at)): Stratum[] {
  const ids = new Set(surfaces.map(({ surface }) => surface));
  const on = (named: readonly string[]) => named.length === 0 || named.some((id) => ids.has(id));
  const marks = marksIn(job, at.room, at.unit);
  const marksOf = (id: string) => marks.filter(({ of, wall }) => of === id && wall === at.wall);
  const away = (id: string): number | null => {
    const places = marksOf(id).map((mark) =>
      mark.area === null ? Math.hypot(mark.x - at.x, mark.y - at.y) : distanceToArea(mark.area, at),
    );
    return places.length === 0 ? null : Math.min(...places);
  };
  const areaAt = (id: string) => marksOf(id).findLast(({ area }) => area !== null && distanceToArea(area, at) === 0)?.area ?? null;
  // Marked on another wall or the floor only, it shows that place and not this one.
  const elsewhere = (id: string) => away(id) === null && marks.some(({ of }) => of === id);
  const nearest = (a: Away, b: Away) => (a.away ?? Infinity) - (b.away ?? Infinity) || 0;

  const owed = proofOwed(job);
  const runs = job.runs.filter((run) => on(run.surfaces));
  const photos = job.shots.filter((shot) => shot.sorted && on(shot.surfaces) && !elsewhere(shot.id)).toReversed();
  const readings = job.readings.filter((one) => one.surface !== null && ids.has(one.surface) && !elsewhere(one.id)).toReversed();
  const stated = [...job.facts.protect, ...job.facts['tile-check']]
    .filter(({ data }) => on(data.surfaces))
    .map(({ utc, offsetMin, by }) => ({ utc, offsetMin, by }));
  const strata = LAYERS.flatMap((layer) => {
    const ofLayer = (one: { readonly step: Run['step'] | null }) => one.step !== null && LAYER_OF_STEP[one.step] === layer;
    const isThere =
      surfaces.some((surface) => layersOn(surface, job).includes(layer)) ||
      runs.some(ofLayer) ||
      (layer === 'protect' && stated.length > 0) ||
      photos.some(ofLayer) ||
      readings.some(ofLayer);
    if (!isThere) return [];
    const coats = layer === 'coat' ? coatsOf([...runs, ...photos, ...readings].filter(ofLayer)) : [null];
    return coats.map((coat): Stratum => {
      const here = <T extends { readonly step: Run['step'] | null; readonly coat: number | null }>(one: T) =>
        ofLayer(one) && (coat === null || (one.coat ?? 1) === coat);
      const ownRuns = runs.filter(here);
      const materials = new Set(ownRuns.flatMap((run) => run.materials));
      // Written without a step it belongs where the reading does that it speaks of.
      const isHere = (run: string | null, about: readonly (string | null)[]) =>
        run === null ? job.readings.some((one) => here(one) && about.includes(one.id)) : ownRuns.some((one) => one.id === run);
      const facts: readonly (Fact<'deviation'> | Fact<'repair'>)[] = [
        ...job.facts.deviation.filter(({ run, data }) => isHere(run, [data.against])),
        ...job.facts.repair.filter(({ run, data }) => isHere(run, data.of)),
      ];
      return {
        layer,
        coat,
        runs: ownRuns,
        worked: [
          ...ownRuns.map(({ startUtc, startOffsetMin, by }) => ({ utc: startUtc, offsetMin: startOffsetMin, by })),
          ...(layer === 'protect' ? stated : []),
        ],
        photos: photos
          .filter(here)
          .map((shot) => ({ shot, away: away(shot.id), area: areaAt(shot.id) }))
          .sort((a, b) => Number(b.area !== null) - Number(a.area !== null) || nearest(a, b)),
        readings: readings
          .filter(here)
          .map((reading) => ({ reading, judged: judgeReading(reading, job.limits), away: away(reading.id) }))
          .sort(nearest),
        lots: job.materials.filter(({ material }) => materials.has(material)),
        deviations: facts
          .filter(({ id, data }) => on(data.surfaces) && !elsewhere(id))
          .map((of) => ({ of, away: away(of.id) }))
          .sort(nearest),
        missing: owed
          .filter((one) => one.layer === layer)
          .flatMap(({ items }) => items)
          .filter(
            (item) =>
              item.stand === 'owed' && (item.coat === null || item.coat === coat) && item.surfaces.some(({ surface }) => ids.has(surface)),
          ).length,
      };
    });
  });
  return strata;
}

/** Every coat that anything was done to; the first where nothing was. */
function coatsOf(of: readonly { readonly coat: number | null }[]): readonly number[] {
  const most = Math.max(1, ...of.map(({ coat }) => coat ?? 1));
  return Array.from({ length: most }, (_, i) => i + 1);
}
