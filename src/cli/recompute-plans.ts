import { fromTenThousandths } from '#lib/measure/exact.ts';
import type { Point } from '#lib/measure/plane.ts';
import { wallFaces } from '#lib/job/drawing/walls-input.ts';
import { shapeOf, type RoomShape } from '#lib/job/drawing/shape.ts';
import type { Entry } from '#lib/record/entry.ts';
import { known, type DataOf } from '#lib/record/kinds.ts';
import { frozen, thawed } from '#lib/record/plan-result.ts';
import { compare, type Difference } from '#lib/report/recompute.ts';
import { answerTo } from '#lib/trade/laying/answer.ts';

/** A kept plan beside what its input gives today, and its surfaces beside those of the drawing it was made from. */
export interface PlanAgain {
  readonly entry: string;
  readonly wall: number | null;
  /** Numbers and codes compared. */
  readonly values: number;
  /** Null where it cannot be told: the time was up when it was made, or another version made it. */
  readonly differences: readonly Difference[] | null;
}

const always = () => true;

/** Works every kept plan out again, however long it takes. Plans of the same input, as those of the walls of a room, are worked out once. */
export function recomputePlans(entries: readonly Entry[]): PlanAgain[] {
  const answers = new Map<string, unknown>();
  const drawings = new Map<string, DataOf<'drawing'>>();
  return entries.flatMap((entry): PlanAgain[] => {
    const view = known(entry);
    if (view.kind === 'drawing') drawings.set(entry.body.id, view.data);
    if (view.kind !== 'plan') return [];
    const { data } = view;
    const asked = JSON.stringify(data.input);
    if (!answers.has(asked)) answers.set(asked, answerOf(data.input));
    const now = ownOf(answers.get(asked), data.wall);
    const again = { entry: entry.body.id, wall: data.wall ?? null };
    if (now === null || !isProven(data.result)) return [{ ...again, values: 0, differences: null }];
    const found = { values: 0, differences: [] as Difference[] };
    compare('result', data.result, now, found);
    const drawn = drawings.get(data.drawing);
    const shape = drawn === undefined ? null : shapeOf(drawn);
    if (shape?.ok === true) compareSurface(data, shape.value, found);
    return [{ ...again, ...found }];
  });
}

function answerOf(input: DataOf<'plan'>['input']): unknown {
  const answer = answerTo(thawed(input), { sheets: always, laying: always, remedies: always });
  return answer.ok ? frozen(answer.value) : null;
}

/** What of an answer an entry keeps: all of it for a floor, its own wall's part and the rolls for a wall. */
function ownOf(answer: unknown, wall: number | undefined): object | null {
  if (!isFields(answer)) return null;
  if (wall === undefined) return answer;
  const { walls, ...all } = answer;
  const own = Array.isArray(walls) ? (walls as unknown[]).find((one) => isFields(one) && one['wall'] === String(wall)) : undefined;
  if (!isFields(own)) return null;
  return Object.fromEntries(Object.entries({ ...all, ...own }).filter(([name]) => name !== 'wall'));
}

function isProven({ proven }: DataOf<'plan'>['result']): boolean {
  return isFields(proven) && Object.values(proven).every((one) => one === true);
}

/** The floor or the faces of the wall that were planned, as the drawing gives them. */
function compareSurface({ input, wall }: DataOf<'plan'>, shape: RoomShape, found: Parameters<typeof compare>[3]): void {
  if (wall === undefined) {
    compare('input.floor', input['floor'], ring(shape.floor), found);
    return;
  }
  const planned = (input['walls'] as { wall: string; faces: { outline: [string, string][] }[] }[]).find((one) => one.wall === String(wall));
  if (planned === undefined) return;
  // The height that was typed is not kept by itself: the faces reach up to it.
  const top = Math.max(...planned.faces.flatMap(({ outline }) => outline.map(([, y]) => Math.round(Number(y) * 10_000))));
  const faces = wallFaces(shape, wall, top).map(({ outline, holes }) => ({ outline: ring(outline), holes: holes.map(ring) }));
  compare('input.faces', planned.faces, faces, found);
}

const ring = (corners: readonly Point[]) => frozen(corners.map(({ x, y }) => [fromTenThousandths(x), fromTenThousandths(y)]));

function isFields(value: unknown): value is Readonly<Record<string, unknown>> {
  return typeof value === 'object' && value !== null && !Array.isArray(value);
}
