import { EMPTY_PLAN, planDraft, planInput } from '#lib/job/drawing/plan-input.ts';
import { shapeOf } from '#lib/job/drawing/shape.ts';
import type { Drawing } from '#lib/record/kinds/drawing.ts';
import type { Draft } from '#lib/record/kinds.ts';
import type { Quantity } from '#lib/record/kinds/reading.ts';
import { answerTo } from '#lib/trade/laying/answer.ts';

const inches = (text: string, value: string): Quantity => ({ text, value, unit: 'in' });
const [WALL, SIDE] = [inches('5\' 0"', '60'), inches('31"', '31')];

/** The shower as Dara walked it: west wall, north, east, and the curb that is stepped over; the drain and the valve in the east wall by tape. */
const SHOWER: Drawing = {
  room: 'bath',
  unit: 'in',
  height: inches('8\' 0"', '96'),
  walls: [
    { length: SIDE, turn: '90', as: 'full' },
    { length: WALL, turn: '90', as: 'full' },
    { length: SIDE, turn: '90', as: 'full' },
    { length: WALL, as: 'curb', height: inches('4"', '4'), depth: inches('4-1/2"', '4.5') },
  ],
  closing: 'exact',
  doorways: [],
  things: [
    { thing: 'drain', wall: 1, along: inches('30"', '30'), out: inches('15-1/2"', '15.5'), width: inches('6"', '6') },
    { thing: 'valve', wall: 2, along: inches('15"', '15'), up: inches('42"', '42') },
  ],
};

export const EXAMPLE_DRAWING: Draft = { id: 'drawing-bath', kind: 'drawing', data: SHOWER };

/**
 * The sheets of its floor as the planner puts them, up the walls by 6 in, from a roll of 1 m with 2 in of lap. Dara wants the seam by the north
 * wall, so that 2 3/8 in of the lap lie on the floor. The planner is given the time it takes.
 */
export function examplePlan(): Draft {
  const shape = shapeOf(SHOWER);
  if (!shape.ok) throw new Error(shape.fault.code);
  const seam = { direction: '0', pins: '28 5/8 in' } as const;
  const form = { ...EMPTY_PLAN, width: '1 m', atHand: '33 ft', overlap: '2 in', upturn: '6 in', clear: '2 in', ...seam };
  const input = planInput(form, shape.value);
  if (!input.ok) throw new Error(JSON.stringify(input.fault));
  const always = () => true;
  const planned = answerTo(input.value, { sheets: always, laying: always, remedies: always });
  if (!planned.ok) throw new Error(JSON.stringify(planned.fault));
  return { ...planDraft('bath', 'drawing-bath', input.value, planned.value), id: 'plan-bath' };
}

type Two = readonly [number, number];

/** An area that a photo shows: two opposite corners of it in inches, and all four in the photo, from its upper left with the clock. */
export function exampleArea(of: string, [a, b]: readonly [Two, Two], inPhoto: readonly [Two, Two, Two, Two], wall?: number): Draft {
  const [[left, low], [right, high]] = [a, b];
  const text = ([x, y]: Two): [string, string] => [String(x), String(y)];
  const [p, q, r, s] = inPhoto;
  const mark = exampleMark(of, [(left + right) / 2, (low + high) / 2], wall === undefined ? {} : { wall });
  if (mark.kind !== 'mark') throw new Error('not a mark');
  return {
    ...mark,
    id: `mark-${of}-area`,
    data: {
      ...mark.data,
      corners: [text([left, high]), text([right, high]), text([right, low]), text([left, low])],
      inPhoto: { width: 1280, height: 960, corners: [text(p), text(q), text(r), text(s)] },
    },
  };
}

/** Where a photo or reading belongs on it, in inches. */
export function exampleMark(
  of: string,
  [x, y]: readonly [number, number],
  more: { readonly wall?: number; readonly spot?: string } = {},
): Draft {
  const said = (value: number) => inches(String(value), String(value));
  return {
    id: `mark-${of}-${more.spot ?? 'place'}`,
    kind: 'mark',
    refs: [of],
    data: { of, room: 'bath', x: said(x), y: said(y), ...more },
  };
}
