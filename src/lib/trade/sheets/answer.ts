import { fromTenThousandths, rounded, type Ratio } from '../../measure/exact.ts';
import type { Point } from '../../measure/plane.ts';
import type { Impossible } from './impossible.ts';
import type { CutRoll } from './packing.ts';
import type { SurfacePlan } from './plan.ts';
import type { Room } from './room.ts';
import type { Walls, WallsPlan } from './walls.ts';

/** Answers of the planner as the terminal prints them (docs/plan.md): lengths in the drawing's unit with at most four places. */
export const length = fromTenThousandths;
const place = (ratio: Ratio) => length(rounded(ratio));
export const point = ({ x, y }: Point) => [length(Math.round(x)), length(Math.round(y))];

export function surfaceAnswer(plan: SurfacePlan): object {
  return {
    direction: plan.direction,
    positions: plan.positions.map(length),
    pieces: plan.pieces.map(({ id, strip, from, to, cutLength, notched }) => ({
      id,
      strip,
      from: place(from),
      to: place(to),
      cutLength: length(cutLength),
      notched,
    })),
    totalCut: length(plan.totalCut),
    notched: plan.notched,
    seamLength: place(plan.seamLength),
    smallestOverlap: plan.smallestOverlap === null ? null : length(plan.smallestOverlap),
  };
}

export function gapAnswer({ gap }: Pick<SurfacePlan, 'gap'>): number {
  return Number(gap.toFixed(6));
}

export function rollsAnswer(rolls: readonly CutRoll[], pieces: readonly { readonly id: string }[]): object[] {
  return rolls.map((roll) => ({ length: length(roll.length), new: roll.isNew, pieces: roll.pieces.map((piece) => pieces[piece]!.id) }));
}

/** The plan of the walls of a room. */
export function wallsAnswer({ unit }: Pick<Walls, 'unit'>, planned: WallsPlan): object {
  if ('impossible' in planned) return { ...impossibleAnswer(planned.impossible), ...(planned.wall === null ? {} : { wall: planned.wall }) };
  const { walls, rolls, proven } = planned;
  return {
    unit,
    walls: walls.map((plan) => ({ wall: plan.wall, ...surfaceAnswer(plan), gap: gapAnswer(plan) })),
    rolls: rollsAnswer(
      rolls,
      walls.flatMap(({ pieces }) => pieces),
    ),
    proven,
  };
}

export function impossibleAnswer({ code, piece, keepOuts, remedies, isProven }: Impossible): object {
  return {
    impossible: code,
    ...(piece === null
      ? {}
      : {
          piece: {
            direction: piece.direction,
            position: length(piece.position),
            from: place(piece.from),
            to: place(piece.to),
            cutLength: length(piece.cutLength),
          },
        }),
    ...(keepOuts.length === 0 ? {} : { keepOuts }),
    remedies: remedies.map(remedyAnswer),
    proven: isProven,
  };
}

/** What to change in the input, under the names it has there. */
export function remedyAnswer({ kind, change }: { readonly kind: string; readonly change: Change }): object {
  return { kind, ...Object.fromEntries(Object.entries(change).map(inputOf)), proven: true };
}

type Change = Partial<
  Pick<
    Room,
    'direction' | 'pins' | 'maxStretches' | 'sets' | 'reach' | 'doorways' | 'roll' | 'longestPiece' | 'keepOuts' | 'upturn' | 'gauge'
  >
>;

function inputOf([key, value]: [string, Change[keyof Change]]): [string, unknown] {
  switch (key) {
    case 'roll': {
      const { width, atHand, newLength } = value as Room['roll'];
      return [key, { width: length(width), lengths: atHand.map(length), newLength: newLength === null ? null : length(newLength) }];
    }
    case 'doorways':
      return [key, (value as Room['doorways']).map(({ wall, from, to }) => ({ wall, from: length(from), to: length(to) }))];
    case 'keepOuts':
      return [key, (value as Room['keepOuts']).map(({ at, radius }) => ({ at: point(at), radius: length(radius) }))];
    case 'pins':
      return [key, (value as Room['pins']).map(length)];
    case 'direction':
    case 'sets':
    case 'maxStretches':
      return [key, value];
    default:
      return [key, value === null ? null : length(value as number)];
  }
}
