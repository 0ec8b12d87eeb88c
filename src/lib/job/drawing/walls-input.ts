import { fromTenThousandths } from '../../measure/exact.ts';
import { placeIn, type Point } from '../../measure/plane.ts';
import { withoutRectangles, type Face, type Rectangle } from '../../measure/rectangles.ts';
import type { PlanForm } from '../../record/drawing-drafts.ts';
import type { Draft } from '../../record/kinds.ts';
import { frozen } from '../../record/plan-result.ts';
import { fail, ok, type Result } from '../../result.ts';
import type { SetupFault } from '../setup-fields.ts';
import { freeEnds, isUpright } from './joints.ts';
import { GAUGE, PlanReader, takenOf, type PlanInput } from './plan-input.ts';
import type { RoomShape } from './shape.ts';

/** Walls that can have sheets, by their index. */
export function sheetWalls({ walls }: Pick<RoomShape, 'walls'>): number[] {
  return walls.flatMap((wall, i) => (isUpright(wall) ? [i] : []));
}

/** The planner's input for the walls of a drawing, or every field in the way. `upturn`: up to where the sheets go, the top where it is empty. */
export function wallsInput(form: PlanForm, shape: RoomShape): Result<PlanInput, SetupFault[]> {
  const { unit } = shape;
  const reader = new PlanReader(unit);
  const top = reader.length('upturn', form.upturn);
  const clear = Math.round(reader.orZero('clear', form.clear) * 10_000);
  const wanted = sheetWalls(shape).filter((wall) => !form.without.includes(String(wall)));
  const faced = wanted.map((wall) => ({ wall, faces: wallFaces(shape, wall, top === null ? Infinity : Math.round(top * 10_000)) }));
  const walls = faced
    .filter(({ faces }) => faces.length > 0)
    .map(({ wall, faces }) => ({
      wall,
      faces: faces.map(({ outline, holes }) => ({ outline: ring(outline), holes: holes.map(ring) })),
      keepOuts: clear === 0 ? [] : keepOuts(shape, wall, faces, clear),
    }));
  if (walls.length === 0) reader.fault('without', 'none-chosen');
  const input = { unit, gauge: GAUGE[unit], walls, ...reader.roll(form), ...takenOf(form.taken) };
  return reader.faults.length > 0 ? fail(reader.faults) : ok(input);
}

const pair = ({ x, y }: Point) => [fromTenThousandths(x), fromTenThousandths(y)] as const;
const ring = (corners: readonly Point[]) => corners.map(pair);

/** What of a wall is covered: without its doorways, niches, the holes of valves and pipes, and what benches hide. */
export function wallFaces({ walls, doorways, things }: RoomShape, wall: number, top: number): Face[] {
  const { length, height } = walls[wall]!;
  const after = (wall + 1) % walls.length;
  const before = (wall + walls.length - 1) % walls.length;
  // A slanted wall is as long as a double says.
  const box = { x1: 0, y1: 0, x2: Math.round(length), y2: Math.min(top, height) };
  const doors = doorways
    .filter((one) => one.wall === wall)
    .map(({ along, width, height: high }) => ({ x1: along, y1: 0, x2: along + width, y2: high }));
  const others = things.flatMap((thing): Rectangle[] => {
    const { along, up, width, height: high, depth } = thing;
    if (thing.thing === 'bench') {
      const [first, last] = freeEnds(thing, walls);
      if (thing.wall === wall) return [{ x1: along, y1: 0, x2: along + width, y2: high }];
      if (thing.wall === after && !first) return [{ x1: box.x2 - depth, y1: 0, x2: box.x2, y2: high }];
      return thing.wall === before && !last ? [{ x1: 0, y1: 0, x2: depth, y2: high }] : [];
    }
    if (thing.wall !== wall) return [];
    if (thing.thing === 'niche') return [{ x1: along, y1: up, x2: along + width, y2: up + high }];
    if (thing.thing !== 'valve' && thing.thing !== 'pipe') return [];
    const half = Math.round(width / 2);
    return half === 0 ? [] : [{ x1: along - half, y1: up - half, x2: along + half, y2: up + half }];
  });
  return withoutRectangles(box, [...doors, ...others]);
}

/** Discs that no overlap may meet, around what goes through the wall. */
function keepOuts({ things }: RoomShape, wall: number, faces: readonly Face[], clear: number): object[] {
  const isOn = (at: Point) => faces.some(({ outline }) => placeIn(outline, at) >= 0);
  return things
    .filter((one) => one.wall === wall && (one.thing === 'valve' || one.thing === 'pipe') && isOn({ x: one.along, y: one.up }))
    .map(({ along, up, width }) => ({
      at: pair({ x: along, y: up }),
      radius: fromTenThousandths(Math.ceil(width / 2) + clear),
    }));
}

/** The entries of a plan of walls, one a wall: each with all that was asked, its own strips, and the rolls that all are cut from. */
export function wallPlanDrafts(room: string, drawing: string, input: PlanInput, result: object): Draft[] {
  const { walls, ...all } = frozen(result) as { walls: { wall: string }[] };
  return walls.map(({ wall, ...own }) => ({
    kind: 'plan',
    refs: [drawing],
    data: { room, drawing, wall: Number(wall), input: frozen(input) as Record<string, unknown>, result: { ...all, ...own } },
  }));
}
