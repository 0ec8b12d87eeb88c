import { takeoff } from '../job/drawing/areas.ts';
import { edgeWall, exitWall, keptPlan, keptWalls } from '../job/drawing/laid.ts';
import { marksIn } from '../job/drawing/marks.ts';
import { shapeOf, type RoomShape } from '../job/drawing/shape.ts';
import { roomsOf } from '../job/proof.ts';
import type { DrawnRoom, JobState } from '../job/state.ts';
import { moment } from './line.ts';
import type { Moment, RecordDrawing, RecordPlan, RecordTakeoff } from './record-document.ts';

/** Every room that is drawn, in the order of the rooms. */
export function recordDrawings(job: JobState): RecordDrawing[] {
  const order = roomsOf(job).map(({ room }) => room);
  const place = (room: string) => (order.includes(room) ? order.indexOf(room) : order.length);
  return job.drawings.map((drawn) => recordDrawing(drawn, job)).toSorted((a, b) => place(a.room) - place(b.room));
}

function recordDrawing({ id, room, data }: DrawnRoom, job: JobState): RecordDrawing {
  const shape = shapeOf(data);
  return {
    room,
    entry: id,
    at: momentOf(id, job),
    drawing: data,
    takeoff: shape.ok ? recordTakeoff(shape.value) : null,
    marks: marksIn(job, room, data.unit).map(({ n, of, wall, x, y, spot }) => ({ n, of, wall, x, y, spot })),
    plan: recordPlan(room, shape.ok ? shape.value : null, job),
    ...recordWalls(room, job),
  };
}

function recordWalls(room: string, job: JobState): Pick<RecordDrawing, 'walls'> {
  const kept = keptWalls(job, room);
  if (kept === null) return {};
  const { fact, sheets, width, isStale } = kept;
  return { walls: { entry: fact.id, at: { utc: fact.utc, offsetMin: fact.offsetMin }, stale: isStale, width, sheets } };
}

/** To four places, as all lengths of a drawing. */
const decimal = (value: number): string => String(Number(value.toFixed(4)));

function recordTakeoff(shape: RoomShape): RecordTakeoff {
  const { floor, walls, curbs, benches, perimeter, joints, insideCorners, outsideCorners, collars } = takeoff(shape);
  return {
    floor: decimal(floor),
    walls: decimal(walls.reduce((sum, one) => sum + one, 0)),
    curbs: decimal(curbs),
    benches: decimal(benches),
    perimeter: decimal(perimeter),
    joints: Object.fromEntries(Object.entries(joints).map(([kind, length]) => [kind, decimal(length)])) as RecordTakeoff['joints'],
    insideCorners,
    outsideCorners,
    collars,
  };
}

function recordPlan(room: string, shape: RoomShape | null, job: JobState): RecordPlan | null {
  const kept = keptPlan(job, room);
  if (kept === null) return null;
  const { fact, sheets, width, isStale } = kept;
  const exit = (one: string) => (shape === null || isStale ? null : exitWall(shape, fact.data.input, Number(one)));
  const { id, utc, offsetMin } = fact;
  return {
    entry: id,
    at: { utc, offsetMin },
    stale: isStale,
    width,
    sheets,
    exits: (sheets.laying.steps ?? []).map((step) => exit(step.exit)),
    bare: shape === null || isStale ? [] : [...new Set(sheets.upturnMissing.map((edge) => edgeWall(shape, fact.data.input, Number(edge))))],
  };
}

function momentOf(id: string, job: JobState): Moment {
  return moment(job.lines.find(({ entry }) => entry.body.id === id)!.entry);
}
