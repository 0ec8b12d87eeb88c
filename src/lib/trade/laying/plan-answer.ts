import { fromTenThousandths, rounded, type Ratio } from '../../measure/exact.ts';
import type { Point } from '../../measure/plane.ts';
import type { LayingRemedy } from './remedies.ts';
import type { RoomPlan } from './plan-room.ts';
import type { LayingStep } from './trial.ts';
import type { Impossible, SheetRemedy } from '../sheets/impossible.ts';
import type { Room } from '../sheets/room.ts';

/** The plan of a room as the terminal prints it (docs/plan.md): lengths in the drawing's unit, indices from 0. */
export function planAnswer(room: Room, planned: RoomPlan): object {
  if ('impossible' in planned) return impossibleAnswer(planned.impossible);
  const { sheets, laying, remedies } = planned;
  const { proven } = sheets;
  return {
    unit: room.unit,
    direction: sheets.direction,
    positions: sheets.positions.map(length),
    pieces: sheets.pieces.map(({ id, strip, from, to, cutLength, notched }) => ({
      id,
      strip,
      from: place(from),
      to: place(to),
      cutLength: length(cutLength),
      notched,
    })),
    totalCut: length(sheets.totalCut),
    notched: sheets.notched,
    seamLength: place(sheets.seamLength),
    smallestOverlap: sheets.smallestOverlap === null ? null : length(sheets.smallestOverlap),
    upturnMissing: sheets.upturnMissing,
    rolls: sheets.rolls.map((roll) => ({
      length: length(roll.length),
      new: roll.isNew,
      pieces: roll.pieces.map((piece) => sheets.pieces[piece]!.id),
    })),
    laying: {
      ...('steps' in laying
        ? { steps: laying.steps.map(stepAnswer) }
        : {
            trap: laying.trap.code,
            pieces: laying.trap.pieces,
            at: laying.trap.at === null ? null : point(laying.trap.at),
            remedies: remedies.map(remedyAnswer),
          }),
      gridStep: length(Math.round(laying.gridStep)),
    },
    proven: { ...proven, laying: laying.isProven },
    gap: Number(sheets.gap.toFixed(6)),
  };
}

const length = fromTenThousandths;
const place = (ratio: Ratio) => length(rounded(ratio));
const point = ({ x, y }: Point) => [length(Math.round(x)), length(Math.round(y))];

function stepAnswer({ piece, stretch, stands, exit }: LayingStep): object {
  const { i, of, from, to } = stretch;
  return { piece, stretch: { i, of, from: length(Math.round(from)), to: length(Math.round(to)) }, stands: stands.map(point), exit };
}

function impossibleAnswer({ code, piece, keepOuts, remedies, isProven }: Impossible): object {
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
function remedyAnswer({ kind, change }: LayingRemedy | SheetRemedy): object {
  return { kind, ...Object.fromEntries(Object.entries(change as Change).map(inputOf)), proven: true };
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
