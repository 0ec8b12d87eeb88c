// Replays an order of laying, and tries all orders, on the raster.
import { intersection, type Geom } from 'polyclip-ts';
import { rasterOf, type Raster, type RasterRoom, type Sheet, type XY } from './plan-floor.ts';

/** What of the terminal's answer an order is about. */
export interface PlanText {
  readonly direction: 0 | 90;
  readonly positions: readonly number[];
  readonly pieces: readonly {
    readonly id: string;
    readonly strip: number;
    readonly from: number;
    readonly to: number;
    readonly cutLength: number;
  }[];
}
export interface StepText {
  readonly piece: string;
  readonly stretch: { readonly i: number; readonly of: number; readonly from: number; readonly to: number };
  readonly stands: readonly XY[];
  readonly exit: number;
}

export interface LaidRoom extends RasterRoom {
  readonly gauge: number;
  readonly roll: { readonly width: number };
  readonly maxStretches: number;
  readonly wholeMax: number | null;
}

const FAR = 1e5;

/** The outlines of pieces, by the polygon library: what of the floor lies in their bands, told apart by where they begin and end. */
export function ringsOf(room: LaidRoom, { direction, positions, pieces }: PlanText): Map<string, readonly XY[]> {
  const rings = new Map<string, readonly XY[]>();
  const along = direction === 0 ? 0 : 1;
  positions.forEach((at, strip) => {
    const [lo, hi] = [at, at + room.roll.width];
    const band: XY[] =
      direction === 0
        ? [
            [-FAR, lo],
            [FAR, lo],
            [FAR, hi],
            [-FAR, hi],
          ]
        : [
            [lo, -FAR],
            [hi, -FAR],
            [hi, FAR],
            [lo, FAR],
          ];
    const parts = intersection([room.floor.map(([x, y]) => [x, y])] as Geom, [band.map(([x, y]) => [x, y])] as Geom);
    const own = pieces.filter((piece) => piece.strip === strip);
    for (const { id, from, to } of own) {
      const part = parts.find((one) => {
        const ends = one[0]!.map((spot) => spot[along]);
        return (
          ![...rings.values()].includes(one[0]!) && Math.abs(Math.min(...ends) - from) < 1e-3 && Math.abs(Math.max(...ends) - to) < 1e-3
        );
      });
      if (part === undefined) throw new Error(`piece ${id}: no part of the floor runs from ${from} to ${to} in its band`);
      rings.set(id, part[0]!.slice(0, -1));
    }
    if (parts.length !== own.length) throw new Error(`strip ${strip}: ${parts.length} parts of the floor, ${own.length} pieces`);
  });
  return rings;
}

/** What an order of laying does wrong, in words; empty when nothing. `sets`: groups of pieces that have set before the next are laid. */
export function faultsOf(
  room: LaidRoom,
  plan: PlanText,
  steps: readonly StepText[],
  sets: readonly (readonly string[])[],
  cell: number,
): string[] {
  const raster = rasterOf(room, cell);
  const rings = ringsOf(room, plan);
  const along = plan.direction === 0 ? 0 : 1;
  const faults: string[] = [];
  const groupOf = (id: string) => (sets.findIndex((set) => set.includes(id)) + sets.length + 1) % (sets.length + 1);
  let laid: { id: string; sheet: Sheet }[] = [];
  let group = 0;
  const order = new Map<string, StepText['stretch'][]>();
  for (const { piece, stretch, stands, exit } of steps) {
    const own = sets.length === 0 ? 0 : groupOf(piece) === 0 && !sets[0]!.includes(piece) ? sets.length : groupOf(piece);
    if (own < group) faults.push(`${piece} belongs to a group before`);
    if (own > group) laid = [];
    group = own;
    const sheet: Sheet = { ring: rings.get(piece)!, along, from: stretch.from, to: stretch.to };
    laid.push({ id: piece, sheet });
    order.set(piece, [...(order.get(piece) ?? []), stretch]);
    if (steps[steps.findIndex((step) => step.piece === piece) + stretch.i]?.piece !== piece)
      faults.push(`${piece}: its stretches are not laid one after the other`);
    const name = `${piece} ${stretch.i + 1}/${stretch.of}`;
    const sheets = laid.map((one) => one.sheet);
    // A disc may touch, and the raster may miss a way that is wide enough by less than half a cell: the disc is taken that much smaller.
    const out = raster.standing(sheets, room.foot / 2 - cell * 0.75);
    const near = stands.map((stand) => cellNear(raster, stand, (i) => out[i] !== 0));
    near.forEach((i, k) => {
      if (i < 0) faults.push(`${name}: no way out from ${stands[k]!.join()}`);
      // The disc itself, exactly where it is said to be.
      if (sheets.some((one) => discMeets(one, stands[k]!, room.foot / 2 - 0.01)))
        faults.push(`${name}: kneels on a sheet at ${stands[k]!.join()}`);
    });
    if (stands.length === 0) faults.push(`${name}: nowhere to kneel`);
    if (!near.some((i) => i >= 0 && out[i] === exit + 1) && !room.doorways[exit]) faults.push(`${name}: no doorway ${exit}`);
    const ways = raster.ways(
      near.filter((i) => i >= 0),
      room.reach * 1.02 + 2 * cell,
    );
    // What is right beside a wall is left to the cells next to it: in a sharp corner the raster has no way to it.
    const unreached = raster.under(sheet, cell * 0.7).find((i) => ways[i] === Infinity);
    if (unreached !== undefined) faults.push(`${name}: ${raster.at(unreached).join()} is out of reach`);
  }
  for (const { id, from, to, cutLength } of plan.pieces) faults.push(...foldFaults(room, id, { from, to, cutLength }, order.get(id) ?? []));
  return faults;
}

function foldFaults(
  room: LaidRoom,
  id: string,
  piece: { from: number; to: number; cutLength: number },
  stretches: readonly StepText['stretch'][],
): string[] {
  const faults: string[] = [];
  const of = stretches.length;
  if (of === 0) return [`${id} is never laid`];
  if (of > room.maxStretches) faults.push(`${id}: ${of} stretches`);
  if (room.wholeMax !== null && piece.cutLength > room.wholeMax && of < 2) faults.push(`${id} is laid whole`);
  if (!stretches.every((stretch, i) => stretch.i === i && stretch.of === of)) faults.push(`${id}: stretches out of turn`);
  const isDown = of > 1 && stretches[0]!.from > stretches[1]!.from;
  const upward = isDown ? [...stretches].reverse() : stretches;
  const ends = [piece.from, ...upward.map(({ to }) => to)];
  upward.forEach(({ from, to }, i) => {
    if (Math.abs(from - ends[i]!) > 1e-3) faults.push(`${id}: a gap at ${from}`);
    const isFold = i < of - 1;
    if (isFold && Math.abs(to / room.gauge - Math.round(to / room.gauge)) > 1e-6) faults.push(`${id}: folded at ${to}, off the gauge`);
    if (isFold && Math.abs(to - (piece.from + ((piece.to - piece.from) * (i + 1)) / of)) > room.gauge / 2 + 1e-3)
      faults.push(`${id}: unequal at ${to}`);
  });
  if (Math.abs(ends.at(-1)! - piece.to) > 1e-3) faults.push(`${id} ends at ${ends.at(-1)}`);
  return faults;
}

function cellNear(raster: Raster, [x, y]: XY, holds: (i: number) => boolean): number {
  const around = [0, -1, 1].flatMap((dx) => [0, -1, 1].map((dy) => raster.cellOf([x + dx * raster.cell, y + dy * raster.cell])));
  return around.find(holds) ?? -1;
}

function discMeets(sheet: Sheet, [x, y]: XY, radius: number): boolean {
  for (let k = 0; k < 720; k++) {
    const angle = (k * Math.PI) / 360;
    const p: XY = [x + radius * Math.cos(angle), y + radius * Math.sin(angle)];
    if (p[sheet.along] > sheet.from && p[sheet.along] < sheet.to && isIn(sheet.ring, p)) return true;
  }
  return false;
}

function isIn(ring: readonly XY[], [x, y]: XY): boolean {
  return ring.reduce((inside, a, i) => {
    const b = ring[(i + 1) % ring.length]!;
    return a[1] > y !== b[1] > y && x < a[0] + ((y - a[1]) / (b[1] - a[1])) * (b[0] - a[0]) ? !inside : inside;
  }, false);
}

/**
 * The fewest stretches of any order, by trying for every set of laid pieces which may be next; Infinity when there is none. `margin` makes
 * discs larger and the reach shorter, so that what the raster rounds never lets an order pass that is none.
 */
export function bruteStretches(room: LaidRoom, plan: PlanText, cell: number, margin: number): number {
  const raster = rasterOf(room, cell);
  const rings = ringsOf(room, plan);
  const along = plan.direction === 0 ? 0 : 1;
  const { pieces } = plan;
  const canLay = (laid: readonly Sheet[], done: readonly Sheet[], stretch: Sheet) => {
    const out = raster.standing([...laid, ...done, stretch], room.foot / 2 + margin);
    const places: number[] = [];
    out.forEach((door, i) => door !== 0 && places.push(i));
    if (places.length === 0) return false;
    // In a corner of 40 degrees or more there is a cell no further from the corner than one and a half.
    const ways = raster.ways(places, room.reach - margin - cell * 1.5);
    return raster.under(stretch, 0).every((i) => ways[i]! < Infinity);
  };
  const fewest = (laid: readonly Sheet[], p: number): number => {
    const { id, from, to, cutLength } = pieces[p]!;
    const least = room.wholeMax !== null && cutLength > room.wholeMax ? 2 : 1;
    for (let of = least; of <= room.maxStretches; of++) {
      const ends = Array.from({ length: of + 1 }, (_, i) =>
        i === 0 ? from : i === of ? to : Math.round((from + ((to - from) * i) / of) / room.gauge) * room.gauge,
      );
      const upward = ends.slice(1).map((end, i): Sheet => ({ ring: rings.get(id)!, along, from: ends[i]!, to: end }));
      for (const order of of === 1 ? [upward] : [upward, [...upward].reverse()]) {
        if (order.every((stretch, i) => canLay(laid, order.slice(0, i), stretch))) return of;
      }
    }
    return Infinity;
  };
  const best = new Map<number, number>();
  const from = (laid: number): number => {
    if (laid === 2 ** pieces.length - 1) return 0;
    let known = best.get(laid);
    if (known === undefined) {
      known = Infinity;
      const sheets = pieces.flatMap(({ id, from: a, to: b }, p): Sheet[] =>
        (laid >> p) & 1 ? [{ ring: rings.get(id)!, along, from: a, to: b }] : [],
      );
      for (let p = 0; p < pieces.length; p++) {
        if ((laid >> p) & 1) continue;
        const own = fewest(sheets, p);
        if (own < Infinity) known = Math.min(known, own + from(laid | (1 << p)));
      }
      best.set(laid, known);
    }
    return known;
  };
  return from(0);
}
