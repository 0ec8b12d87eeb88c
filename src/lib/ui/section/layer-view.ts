import type { OwedStand } from '#lib/job/proof.ts';
import type { Layer, Place } from '#lib/job/systems.ts';
import type { Verdict } from '#lib/trade/limits.ts';

/** One thing a layer owes, or has shown, in words. */
export interface ItemView {
  readonly key: string;
  readonly name: string;
  readonly place: Place;
  readonly want: 'shot' | 'reading' | 'entry';
  readonly stand: OwedStand;
  readonly shown: boolean;
  readonly verdict?: Verdict;
}

/** A layer of the section in words. The order of layers is the order of work: the substrate first. */
export interface LayerView {
  readonly layer: Layer;
  readonly name: string;
  /** The one fact that matters most about it. */
  readonly note: string;
  readonly stand: 'not-begun' | 'owed' | 'shown';
  readonly shown: number;
  /** How many were left out with a reason. */
  readonly leftOut: number;
  readonly total: number;
  /** Brought up: what it owes is listed under it. */
  readonly open: boolean;
  readonly items: readonly ItemView[];
}

const PLACE_ORDER: Readonly<Record<Place, number>> = { wall: 0, niche: 1, bench: 2, floor: 3, curb: 4 };

/** Which leg of the section an item is drawn on: a niche and a bench are part of the wall. */
export function onWall(place: Place): boolean {
  return PLACE_ORDER[place] < PLACE_ORDER.floor;
}

/** Items by place, wall first, as the cells of the drawing follow each other. The curb stands at the far end of the floor. */
export function byPlace(items: readonly ItemView[]): ItemView[] {
  return [...items].sort((a, b) => PLACE_ORDER[a.place] - PLACE_ORDER[b.place]);
}

/** What is listed under an open layer: what is owed, what was left out on purpose, then values outside their limit or not proven. */
export function listed(layer: LayerView): ItemView[] {
  const items = byPlace(layer.items);
  const doubtful = items.filter((item) => item.shown && (item.verdict === 'outside' || item.verdict === 'not-proven'));
  return [...items.filter((item) => item.stand === 'owed'), ...items.filter((item) => !item.shown && item.stand !== 'owed'), ...doubtful];
}

/** a, b ... z, aa, ab ...: the letter that joins a gap in the drawing to its row. */
export function letter(index: number): string {
  return `${index < 26 ? '' : letter(Math.floor(index / 26) - 1)}${String.fromCharCode(97 + (index % 26))}`;
}
