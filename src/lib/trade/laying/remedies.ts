import { planSheets, type SheetPlan } from '../sheets/plan.ts';
import type { Budget } from '../sheets/problem.ts';
import { sheetTask, type Doorway, type Room } from '../sheets/room.ts';
import { equalStretches } from './folds.ts';
import { distanceTo, groundOf, inApron, SAME } from './ground.ts';
import { groupsOf, layGroups, layingTask, layPlan } from './lay.ts';
import type { Trap } from './order.ts';
import { placeAt } from './standing.ts';
import { trialOf } from './trial.ts';
import { waysOver } from './ways.ts';

/** A change of the room with which an order exists; tried. */
export interface LayingRemedy {
  readonly kind: 'direction' | 'plan' | 'stretches' | 'set' | 'reach' | 'doorway';
  readonly change: Partial<Pick<Room, 'direction' | 'pins' | 'maxStretches' | 'sets' | 'reach' | 'doorways'>>;
}

/**
 * What helps out of a trap, what costs the crew least first. Every remedy was tried; those that there was no time for are missing. A reach
 * across the whole room needs no time: where one gets in at all it helps, so that there is one remedy in any case.
 */
export function remediesFor(room: Room, plan: SheetPlan, trap: Trap, budget: Budget): LayingRemedy[] {
  // Without a way in nothing else helps.
  if (trap.code === 'no-doorway' || trap.code === 'doorway-too-narrow')
    return [anyDoorway(room, plan, budget)].filter((way) => way !== null);
  const across = reachAcross(room, plan) ?? reachFromPlaces(room, plan, budget);
  // What takes longest to look for comes last.
  const kinds: Kind[] = [
    otherDirection,
    moreStretches,
    () => (across === null ? null : shorterReach(room, plan, across, budget)),
    otherDoorway,
    letSet,
    otherPlan,
  ];
  const found = kinds.map((kind) => (budget() ? kind(room, plan, trap, budget) : null)).filter((remedy) => remedy !== null);
  if (across !== null && !found.some(({ kind }) => kind === 'reach')) found.push(across);
  return found.sort((a, b) => COST.indexOf(a.kind) - COST.indexOf(b.kind));
}

const COST: readonly LayingRemedy['kind'][] = ['direction', 'plan', 'stretches', 'reach', 'set', 'doorway'];

type Kind = (room: Room, plan: SheetPlan, trap: Trap, budget: Budget) => LayingRemedy | null;

/** Whether a room as changed has a plan with an order. */
function works(room: Room, change: LayingRemedy['change'], budget: Budget): boolean {
  const changed = { ...room, ...change };
  const { plan } = planSheets(sheetTask(changed), budget);
  return plan !== null && hasOrder(changed, plan, budget);
}

function hasOrder(room: Room, plan: SheetPlan, budget: Budget): boolean {
  const laying = layPlan(room, plan, budget);
  return laying.ok && 'steps' in laying.value;
}

const otherDirection: Kind = (room, plan, _, budget) => {
  const change = { direction: plan.direction === 0 ? 90 : 0, pins: [], sets: [] } as const;
  return works(room, change, budget) ? { kind: 'direction', change } : null;
};

/** Plans of as many pieces with one strip moved, up to half a roll either way. */
const otherPlan: Kind = (room, plan, _, budget) => {
  const { direction, positions } = plan;
  const seen = new Set([positions.join()]);
  const step = Math.ceil(room.roll.width / 8 / room.gauge) * room.gauge;
  for (const moves of [1, -1, 2, -2, 3, -3, 4, -4]) {
    for (const position of positions) {
      if (!budget()) return null;
      const { plan: moved } = planSheets(sheetTask({ ...room, direction, pins: [position + moves * step] }), budget);
      if (moved === null || moved.pieces.length !== plan.pieces.length || seen.has(moved.positions.join())) continue;
      seen.add(moved.positions.join());
      const change = { direction, pins: moved.positions, sets: [] };
      if (hasOrder({ ...room, ...change }, moved, budget) && works(room, change, budget)) return { kind: 'plan', change };
    }
  }
  return null;
};

/** Folded more often than anybody asked for, a sheet is no longer handled: twice as often is tried. */
const STRETCHES_TRIED = 8;

const moreStretches: Kind = (room, plan, trap, budget) => {
  const { trial, trapped } = trialIn(room, plan, trap);
  const covered = trial.cover(trapped);
  if (trap.code === 'out-of-reach' && !trapped.some((piece) => trial.canBeFolded(piece, covered))) return null;
  const most = Math.max(STRETCHES_TRIED, 2 * room.maxStretches);
  for (let maxStretches = room.maxStretches + 1; maxStretches <= most && budget(); maxStretches++) {
    if (hasOrder({ ...room, maxStretches }, plan, budget)) return { kind: 'stretches', change: { maxStretches } };
  }
  return null;
};

/** A trial of a plan, and the trapped pieces as it knows them. */
function trialIn(room: Room, plan: SheetPlan, { pieces }: Trap) {
  const task = layingTask(room, plan);
  return { task, trial: trialOf(task), trapped: pieces.map((id) => plan.pieces.findIndex((piece) => piece.id === id)) };
}

/** So many ways to part the trapped pieces are tried. */
const PARTINGS = 200;

/**
 * Lays some of the trapped pieces, lets them set and goes on. The pieces outside the trap could be laid last while all others lay, so they
 * can when fewer do. Two groups where that is enough, else as many pieces as can be in each.
 */
const letSet: Kind = (room, plan, trap, budget) => {
  if (room.sets.length > 0) return null;
  const { task, trial, trapped } = trialIn(room, plan, trap);
  const canLayAlone = (piece: number) => 'steps' in layGroups(task, trial, [[piece]], budget);
  if (!trapped.every(canLayAlone)) return null;
  const canLay = (ids: readonly string[]) =>
    'steps' in layGroups(task, trial, [ids.map((id) => plan.pieces.findIndex((piece) => piece.id === id))], budget);
  const remedy = (sets: readonly (readonly string[])[]): LayingRemedy | null => {
    const groups = groupsOf({ sets }, plan.pieces);
    return groups.ok && 'steps' in layGroups(task, trial, groups.value, budget) ? { kind: 'set', change: { sets } } : null;
  };
  let tried = 0;
  for (const first of partings(trap.pieces)) {
    if (++tried > PARTINGS || !budget()) break;
    const rest = trap.pieces.filter((id) => !first.includes(id));
    if (canLay(first) && canLay(rest)) return remedy([first]);
  }
  const sets: string[][] = [];
  let left = [...trap.pieces];
  while (left.length > 0 && budget()) {
    const group: string[] = [];
    for (const id of left) if (canLay([...group, id])) group.push(id);
    if (group.length === 0) return null;
    sets.push(group);
    left = left.filter((id) => !group.includes(id));
  }
  return remedy(sets.slice(0, -1));
};

/** Proper subsets up to half the size, small ones first. */
function* partings(ids: readonly string[]): Generator<string[]> {
  for (let size = 1; size <= ids.length / 2; size++) yield* choose(ids, size);
}

function* choose(ids: readonly string[], size: number): Generator<string[]> {
  if (size === 0) yield [];
  else for (const [i, id] of ids.entries()) for (const rest of choose(ids.slice(i + 1), size - 1)) yield [id, ...rest];
}

/** As many stretches as a piece is usually folded into at most. */
const USUAL_STRETCHES = 4;

/** Steps in which a longer reach is looked for: 1 in, or 25 mm. */
const REACH_STEP = { in: 10_000, mm: 250_000 } as const;

/**
 * A reach from a place right outside a doorway to the furthest corner, over the best of the doorways. With it every piece can be laid from
 * that place, whatever lies, so that it need not be tried. Null where one cannot stand there, or a piece has to be folded and is too short.
 */
function reachAcross(room: Room, plan: SheetPlan): LayingRemedy | null {
  const { foot } = room;
  const ground = groundOf(room);
  const ways = waysOver(ground);
  const furthest = ground.aprons.map((apron, key) => {
    const outside = inApron(apron, apron.width / 2, foot / 2);
    if (ground.edges.some((edge) => distanceTo(edge, outside) < foot / 2 - SAME)) return Infinity;
    return Math.max(...room.floor.map((corner) => ways.distance(outside, key, ways.target(corner), Infinity)));
  });
  return reachOf(room, plan, Math.min(...furthest));
}

function reachOf(room: Room, plan: SheetPlan, furthest: number): LayingRemedy | null {
  const { wholeMax, maxStretches, gauge } = room;
  const step = REACH_STEP[room.unit];
  const folded = layingTask(room, plan).pieces.filter(({ cutLength }) => wholeMax !== null && cutLength > wholeMax);
  if (furthest === Infinity || folded.some((piece) => equalStretches(piece, 2, gauge) === null)) return null;
  // Where a sheet has to be folded and may not be, a longer arm alone is no help.
  const change = folded.length > 0 && maxStretches < 2 ? { maxStretches: USUAL_STRETCHES } : {};
  // One step more, as the nearest place of the grid may be so much further off.
  return { kind: 'reach', change: { ...change, reach: (Math.ceil(Math.max(furthest, room.reach) / step) + 1) * step } };
}

/** So many places outside a doorway are looked at. */
const PLACES_TRIED = 100;

/**
 * The same where another wall stands close before the doorways: from the place outside one that is nearest to the furthest corner. Tried, as
 * with a longer reach the grid has other places.
 */
function reachFromPlaces(room: Room, plan: SheetPlan, budget: Budget): LayingRemedy | null {
  const { places, ground } = trialOf(layingTask(room, plan));
  const ways = waysOver(ground);
  const corners = room.floor.map((corner) => ways.target(corner));
  const every = Math.ceil(places.exits.length / PLACES_TRIED);
  const furthest = places.exits
    .filter((_, i) => i % every === 0)
    .map(({ place }) => Math.max(...corners.map((corner) => ways.distance(placeAt(places, place), place, corner, Infinity))));
  const remedy = reachOf(room, plan, Math.min(...furthest));
  return remedy !== null && hasOrder({ ...room, ...remedy.change }, plan, budget) ? remedy : null;
}

/** The shortest reach that helps, up to one that does, by halving: a longer one always helps more. */
function shorterReach(room: Room, plan: SheetPlan, { change }: LayingRemedy, budget: Budget): LayingRemedy {
  const step = REACH_STEP[room.unit];
  const isEnough = (steps: number) => hasOrder({ ...room, ...change, reach: steps * step }, plan, budget);
  let low = Math.floor(room.reach / step);
  let high = change.reach! / step;
  while (high - low > 1 && budget()) {
    const middle = (low + high) >> 1;
    if (isEnough(middle)) high = middle;
    else low = middle;
  }
  return { kind: 'reach', change: { ...change, reach: high * step } };
}

/** A doorway 30 in or 760 mm wide, or as wide as the widest there is (common practice, no source). */
const DOORWAY = { in: 300_000, mm: 7_600_000 } as const;

/** Doorways one could have in the walls, longest walls first: in the middle, at either end, and the whole wall open. */
function doorwaysTried(room: Room): { whole: Doorway; narrower: Doorway[] }[] {
  const width = Math.max(DOORWAY[room.unit], ...room.doorways.map(({ from, to }) => to - from));
  return room.floor
    .map((a, wall) => {
      const b = room.floor[(wall + 1) % room.floor.length]!;
      return { wall, length: Math.floor(Math.hypot(b.x - a.x, b.y - a.y)) };
    })
    .filter(({ length }) => length >= room.foot)
    .sort((a, b) => b.length - a.length)
    .map(({ wall, length }) => ({
      whole: { wall, from: 0, to: length },
      narrower: (length > width ? [Math.floor((length - width) / 2), 0, length - width] : []).map((from) => ({
        wall,
        from,
        to: from + width,
      })),
    }));
}

/** Doorways with one more; those it runs into become one with it. */
function withDoorway({ doorways }: Room, added: Doorway): { doorways: Doorway[] } {
  const meets = ({ wall, from, to }: Doorway) => wall === added.wall && from <= added.to && to >= added.from;
  const joined = doorways.filter(meets);
  const from = Math.min(added.from, ...joined.map((doorway) => doorway.from));
  const to = Math.max(added.to, ...joined.map((doorway) => doorway.to));
  return { doorways: [...doorways.filter((doorway) => !meets(doorway)), { wall: added.wall, from, to }] };
}

const otherDoorway: Kind = (room, plan, _, budget) => {
  const helps = (doorway: Doorway) => hasOrder({ ...room, ...withDoorway(room, doorway) }, plan, budget);
  for (const { whole, narrower } of doorwaysTried(room)) {
    if (!budget()) return null;
    // Where no opening as wide as the wall helps, no doorway in it does.
    if (helps(whole)) return { kind: 'doorway', change: withDoorway(room, narrower.find(helps) ?? whole) };
  }
  return null;
};

/** A doorway where there is no way in, with a reach across the room where the doorway alone is not enough. */
function anyDoorway(room: Room, plan: SheetPlan, budget: Budget): LayingRemedy | null {
  for (const { narrower, whole } of doorwaysTried(room)) {
    if (!budget()) return null;
    const change = withDoorway(room, narrower[0] ?? whole);
    if (hasOrder({ ...room, ...change }, plan, budget)) return { kind: 'doorway', change };
    const across = reachAcross({ ...room, ...change }, plan);
    if (across !== null) return { kind: 'doorway', change: { ...across.change, ...change } };
  }
  return null;
}
