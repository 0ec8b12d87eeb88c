import { takeoff } from './areas.ts';
import { jointsOf } from './joints.ts';
import type { KeptPlan } from './laid.ts';
import { areaM2, band, BAND_ASKS, liquid, LIQUID_ASKS, mixing, MORTAR_ASKS, PARTS, type Part } from './quantities.ts';
import type { RoomShape } from './shape.ts';
import { reckoning, workOut, type Found, type Reckoning } from '../work-out/ask.ts';

/** The parts of the card, each reckoned by itself from the drawing, the plan and what was typed. */
export const CARD_PARTS = ['mortar', 'liquid', 'band'] as const;
export type CardPart = (typeof CARD_PARTS)[number];

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

/** What was typed on a card: each field under its part, as `mortar.bagKg`, and the surfaces a part is for under its name. */
export type TypedCard = Readonly<Record<string, string | readonly string[]>>;

/** Surfaces a part is for while nobody has chosen any. */
const FIRST: Readonly<Record<CardPart, readonly Part[]>> = { mortar: ['floor'], liquid: ['walls'], band: [] };

/** A part of a card that comes out. */
export interface WorkedPart {
  readonly part: CardPart;
  readonly on: readonly Part[];
  /** What it was reckoned from, as typed. */
  readonly asked: readonly { readonly field: string; readonly text: string }[];
  readonly found: readonly Found[];
}

/** The parts of a card for which enough was typed. */
export function workedCard(shape: RoomShape, plan: KeptPlan | null, typed: TypedCard, units: 'in' | 'mm'): WorkedPart[] {
  const chosen = (part: CardPart) => {
    const list = typed[part];
    return (Array.isArray(list) ? (list as readonly string[]) : FIRST[part]).filter(isPart);
  };
  const cards = cardReckonings(shape, plan, chosen('mortar'), chosen('liquid'));
  return CARD_PARTS.flatMap((part) => {
    const asked = Object.keys(cards[part].asks).flatMap((field) => {
      const text = typed[`${part}.${field}`];
      return typeof text === 'string' && text.trim() !== '' ? [{ field, text }] : [];
    });
    const answer = workOut(cards[part], Object.fromEntries(asked.map(({ field, text }) => [field, text])), units);
    return answer.ok ? [{ part, on: chosen(part), asked, found: answer.value }] : [];
  });
}
