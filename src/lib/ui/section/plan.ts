import { buildUp, strata, wallMiddle, type Cell, type Leg, type Material, type Point, type Stratum } from './geometry.ts';
import { byPlace, letter, listed, onWall, type ItemView, type LayerView } from './layer-view.ts';
import { floorKeys, floorLeader, wallLeader, type FloorKey } from './leaders.ts';

/** Drawn thickness of each material in pixels; of water its depth. Order is true, thickness is not to scale. */
const THICKNESS: Readonly<Record<Material, number>> = {
  frame: 22,
  board: 26,
  liner: 11,
  tray: 20,
  mortar: 18,
  sheet: 13,
  band: 12,
  coat: 12,
  water: 45,
  guard: 12,
};
/** x of the numbered circles. */
const LABEL_X = 104;
/** On the narrowest phones the layers are drawn thinner, so that the names keep their room. */
const NARROW = { below: 360, scale: 0.8 };
const BREAK_LINE = 14;
/** A band ends this far above its row's middle, and at this share of the floor. */
const BAND = { above: 20, floor: 0.64 };
const KEY_BOX = { size: 20, above: 10 };

/** A place in the drawing that calls for attention: proof owed, or a value outside its limit. */
export interface Call {
  readonly key: string;
  readonly kind: 'owed' | 'outside' | 'left-out';
  readonly leg: Leg;
  readonly cell: Cell;
}

export interface PlannedLayer {
  readonly view: LayerView;
  readonly stratum: Stratum;
  readonly calls: readonly Call[];
}

export interface Leader {
  readonly key: string;
  readonly kind: 'layer' | 'owed' | 'outside' | 'left-out';
  readonly points: readonly Point[];
}

export interface Plan {
  readonly layers: readonly PlannedLayer[];
  readonly leaders: readonly Leader[];
  /** Lettered boxes above the floor, with the y of their centres. */
  readonly keys: readonly (FloorKey & { readonly y: number })[];
  /** y of the water level, null without a flood test. */
  readonly waterY: number | null;
}

export interface Measures {
  readonly labelX: number;
  readonly thickness: Readonly<Record<Material, number>>;
  /** Height kept free under the rows for the floor, in pixels. */
  readonly below: number;
}

/** What the page must leave room for, before anything is drawn. */
export function measures(layers: readonly LayerView[], width: number): Measures {
  const scale = width < NARROW.below ? NARROW.scale : 1;
  const thickness = Object.fromEntries(Object.entries(THICKNESS).map(([material, t]) => [material, t * scale])) as Record<Material, number>;
  const trial = strata({ width, height: 1000, thickness, layers: layers.map(legs), band: null, breakLine: BREAK_LINE });
  const flood = layers.find(({ layer }) => layer === 'flood');
  // Letters stand over the open layer: those of the flood test over its water, any others within it.
  const keyed = flood === undefined || letters(flood).size > 0;
  const over = (flood === undefined ? 0 : thickness.water) + (keyed ? KEY_BOX.size + KEY_BOX.above : 0);
  return { labelX: LABEL_X * scale, thickness, below: buildUp(trial, 'floor') + over + 8 };
}

/** The letter of each owed item of the open layer, in the order of its rows; none before the layer is begun. */
export function letters(layer: LayerView): ReadonlyMap<string, string> {
  if (!layer.open || layer.stand === 'not-begun') return new Map();
  return new Map(
    listed(layer)
      .filter((item) => item.stand === 'owed')
      .map((item, i) => [item.key, letter(i)]),
  );
}

/** The whole drawing. `rowY` gives the middle of a layer's or an item's row by its key, as measured on the page. */
export function planSection(
  layers: readonly LayerView[],
  size: { readonly width: number; readonly height: number; readonly rowY: (key: string) => number },
  { labelX, thickness }: Measures,
): Plan {
  const { width, height, rowY } = size;
  const bands = layers.find(({ layer }) => layer === 'bands');
  const band = bands === undefined ? null : { wallTop: Math.max(BREAK_LINE, rowY('bands') - BAND.above), floorEnd: width * BAND.floor };
  const drawn = strata({ width, height, thickness, layers: layers.map(legs), band, breakLine: BREAK_LINE });
  const planned = layers.map((view, i): PlannedLayer => ({ view, stratum: drawn[i]!, calls: calls(view, drawn[i]!) }));
  const top = height - buildUp(drawn, 'floor');
  const water = drawn.find(({ layer }) => layer === 'flood')?.sides.floor ?? null;
  const waterY = water === null ? null : height - water.inner.near;
  const open = planned.find(({ view }) => view.open);
  const boxes =
    open === undefined ? [] : keys(open, (open.view.layer === 'flood' ? (waterY ?? top) : top) - KEY_BOX.above - KEY_BOX.size / 2);
  const onFloorOnly = planned.filter(({ stratum }) => stratum.sides.wall === null);
  const layerLeaders = planned.flatMap((one) => {
    const row = { x: labelX, y: rowY(one.view.layer) };
    // Those further up keep further out, so that none crosses another.
    const bend = row.x - 9 * (onFloorOnly.length - onFloorOnly.indexOf(one));
    return layerLeader(one, row, one === planned.at(-1), bend, height);
  });
  return {
    layers: planned,
    leaders: [...layerLeaders, ...(open === undefined ? [] : callLeaders(open, labelX, rowY))],
    keys: boxes,
    waterY,
  };
}

function legs({ layer, items }: LayerView) {
  const wall = items.filter(({ place }) => onWall(place)).length;
  return { layer, wall, floor: items.length - wall };
}

function calls(view: LayerView, stratum: Stratum): Call[] {
  if (view.stand === 'not-begun') return [];
  const items = byPlace(view.items);
  const walls = items.filter(({ place }) => onWall(place));
  const call = (leg: Leg, of: readonly ItemView[]) =>
    of.flatMap((item, i): Call[] => {
      const cell = stratum[leg][i];
      const kind = item.stand === 'owed' ? 'owed' : item.stand !== 'shown' ? 'left-out' : item.verdict === 'outside' ? 'outside' : null;
      return cell === undefined || kind === null ? [] : [{ key: item.key, kind, leg, cell }];
    });
  return [...call('wall', walls), ...call('floor', items.slice(walls.length))];
}

function layerLeader({ view, stratum }: PlannedLayer, row: Point, last: boolean, bend: number, height: number): Leader[] {
  const middle = wallMiddle(stratum, row.y, height);
  if (middle !== null) return [{ key: view.layer, kind: 'layer', points: [row, { x: middle, y: row.y }] }];
  const floor = stratum.sides.floor;
  if (floor === null) return [];
  // Just under the water level, or in the middle of what lies on the floor.
  const y = view.layer === 'flood' ? height - floor.inner.near + 8 : height - (floor.outer.near + floor.inner.near) / 2;
  const straight = last && !(view.open && listed(view).length > 0);
  const points = straight
    ? [
        { x: row.x + 14, y: row.y + 14 },
        { x: row.x + 14, y },
      ]
    : floorLeader(row, bend, y);
  return [{ key: view.layer, kind: 'layer', points }];
}

function callLeaders({ calls }: PlannedLayer, labelX: number, rowY: (key: string) => number): Leader[] {
  return calls
    .filter(({ leg, kind }) => leg === 'wall' && kind !== 'left-out')
    .map(({ key, kind, cell }) => ({ key, kind, points: wallLeader(cell, { x: labelX, y: rowY(key) }) }));
}

function keys({ view, stratum, calls }: PlannedLayer, y: number): Plan['keys'] {
  const letter = letters(view);
  const owed = new Map(
    calls.filter(({ leg, kind }) => leg === 'floor' && kind === 'owed').map(({ cell, key }) => [cell, letter.get(key) ?? null]),
  );
  return floorKeys(stratum.floor.map((cell) => ({ ...cell, letter: owed.get(cell) ?? null }))).map((key) => ({ ...key, y }));
}
