import type { ProofLevel, Room } from '../../record/kinds/setup.ts';
import type { JobState } from '../state.ts';
import { spotsOf, type Spot } from './joints.ts';
import { keptPlan } from './laid.ts';
import { shapeOf, type RoomShape } from './shape.ts';

/** The places of a drawn room at which a rule asks for proof of each, by the rule's id; a rule not named asks as it does without a drawing. */
export type SpotsOfRules = Readonly<Partial<Record<string, readonly string[]>>>;

/** A corner of the floor or the curb; its upper edges have names of their own. */
const FLOOR_CORNER = /^corner-\d+$/;
const CORNER = /^corner-\d+/;

/**
 * Where proof is owed of each place, risk places first: corner pieces (core: at both ends of a curb; warranty: all of floor and curb; full:
 * those of niche and bench too), collars, and the laps of a planned floor. Common practice, no source. Empty while the room has no drawing
 * that stands and can be drawn.
 */
export function owedSpots(job: JobState, { room }: Pick<Room, 'room'>): SpotsOfRules {
  const drawing = job.drawings.find((one) => one.room === room && !one.open);
  const shape = drawing === undefined ? null : shapeOf(drawing.data);
  if (shape?.ok !== true) return {};
  const spots = spotsOf(shape.value);
  const corners = spots.filter((spot) => spot.kind !== 'collar' && isAsked(spot, job.proof));
  const lists = {
    corner: corners.toSorted((a, b) => Number(b.isRisk) - Number(a.isRisk)).map(({ id }) => id),
    collar: spots.filter(({ kind }) => kind === 'collar').map(({ id }) => id),
    overlap: seamsOf(job, room),
  };
  return Object.fromEntries(Object.entries(lists).filter(([, ids]) => ids.length > 0));
}

function isAsked({ id, isRisk }: Spot, level: ProofLevel): boolean {
  if (level === 'full') return true;
  return level === 'warranty' ? CORNER.test(id) : isRisk && FLOOR_CORNER.test(id);
}

/** One for each overlap of strips in the plan that was kept of this very drawing. */
function seamsOf(job: JobState, room: string): string[] {
  const kept = keptPlan(job, room);
  if (kept === null || kept.isStale) return [];
  return kept.sheets.positions.slice(1).map((_, k) => `seam-${k}`);
}

/** Where a spot of a drawing is; the middle of a seam's strip for one of a plan. Null for a spot it does not hold. */
export function spotPlace(id: string, shape: RoomShape, job: JobState, room: string): Pick<Spot, 'wall' | 'x' | 'y'> | null {
  const spot = spotsOf(shape).find((one) => one.id === id);
  if (spot !== undefined) return spot;
  const kept = keptPlan(job, room);
  const [low, high] = [kept?.sheets.positions[Number(id.slice(5)) + 1], kept?.sheets.positions[Number(id.slice(5))]];
  if (!id.startsWith('seam-') || kept === null || low === undefined || high === undefined) return null;
  const across = Math.round((Number(low) * 10_000 + Number(high) * 10_000 + kept.width) / 2);
  const xs = shape.floor.map(({ x }) => x);
  const ys = shape.floor.map(({ y }) => y);
  const middle = (all: readonly number[]) => Math.round((Math.min(...all) + Math.max(...all)) / 2);
  return kept.sheets.direction === '0' ? { wall: null, x: middle(xs), y: across } : { wall: null, x: across, y: middle(ys) };
}
