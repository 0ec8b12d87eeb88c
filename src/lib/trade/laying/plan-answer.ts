import { gapAnswer, impossibleAnswer, length, point, remedyAnswer, rollsAnswer, surfaceAnswer } from '../sheets/answer.ts';
import type { Room } from '../sheets/room.ts';
import type { RoomPlan } from './plan-room.ts';
import type { LayingStep } from './trial.ts';

/** The plan of a room as the terminal prints it (docs/plan.md): lengths in the drawing's unit, indices from 0. */
export function planAnswer(room: Room, planned: RoomPlan): object {
  if ('impossible' in planned) return impossibleAnswer(planned.impossible);
  const { sheets, laying, remedies } = planned;
  const { proven } = sheets;
  return {
    unit: room.unit,
    ...surfaceAnswer(sheets),
    upturnMissing: sheets.upturnMissing,
    rolls: rollsAnswer(sheets.rolls, sheets.pieces),
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
    gap: gapAnswer(sheets),
  };
}

function stepAnswer({ piece, stretch, stands, exit }: LayingStep): object {
  const { i, of, from, to } = stretch;
  return { piece, stretch: { i, of, from: length(Math.round(from)), to: length(Math.round(to)) }, stands: stands.map(point), exit };
}
