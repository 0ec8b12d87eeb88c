import { takeoff } from '#lib/job/drawing/areas.ts';
import { jointsOf } from '#lib/job/drawing/joints.ts';
import type { KeptPlan } from '#lib/job/drawing/laid.ts';
import { areaM2, band, BAND_ASKS, liquid, LIQUID_ASKS, mixing, MORTAR_ASKS, PARTS, type Part } from '#lib/job/drawing/quantities.ts';
import type { RoomShape } from '#lib/job/drawing/shape.ts';
import { reckoning, type Reckoning } from '#lib/job/work-out/ask.ts';

/** The parts of the card, each reckoned by itself from the drawing, the plan and what was typed. */
export type CardPart = 'mortar' | 'liquid' | 'band';

const isPart = (text: string): text is Part => (PARTS as readonly string[]).includes(text);

/** Parts of the room that have an area at all. */
export function partsOfRoom(shape: RoomShape): Part[] {
  const found = takeoff(shape);
  return PARTS.filter((part) => areaM2([part], found, shape.unit) > 0);
}

export function cardReckonings(
  shape: RoomShape,
  plan: KeptPlan | null,
  bonded: readonly string[],
  coated: readonly string[],
): Readonly<Record<CardPart, Reckoning>> {
  const found = takeoff(shape);
  const area = (parts: readonly string[]) => areaM2(parts.filter(isPart), found, shape.unit);
  const seam = {
    mm: plan === null || plan.isStale ? 0 : Number(plan.sheets.seamLength) * (shape.unit === 'in' ? 25.4 : 1),
    count: plan === null || plan.isStale ? 0 : plan.sheets.positions.length - 1,
  };
  return {
    mortar: reckoning('mix-mortar', 'mortar', null, MORTAR_ASKS, (asked) => mixing(area(bonded), asked)),
    liquid: reckoning('mix-liquid', 'film', null, LIQUID_ASKS, (asked) => liquid(area(coated), asked)),
    band: reckoning('mix-band', 'mortar', null, BAND_ASKS, (asked) => band(jointsOf(shape), seam, asked, shape.unit)),
  };
}
