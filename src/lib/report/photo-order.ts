import { LAYER_OF_STEP, LAYERS, type Layer } from '../job/systems.ts';
import type { RecordShot } from './record-document.ts';

/** Photos of one place, wide to close, or a photo by itself. They share a number, counted from 1 in the order they are printed in. */
export interface PhotoGroup {
  readonly number: number;
  readonly layer: Layer | null;
  readonly shots: readonly RecordShot[];
}

const DISTANCES: readonly RecordShot['distance'][] = ['wide', 'mid', 'close', null];
/** As many photos of one place as stand side by side; more of them go on as another group. */
const CHAIN = 4;

/** Photos layer by layer; within one, places shown from far and near come first, then photos by themselves, each in the order of the log. */
export function photoGroups(shots: readonly RecordShot[]): PhotoGroup[] {
  const order: readonly (Layer | null)[] = [...LAYERS, null];
  return linked(shots)
    .flatMap(chunked)
    .map((group) => ({ shots: group, layer: layerOf(group[0]!) }))
    .toSorted((a, b) => order.indexOf(a.layer) - order.indexOf(b.layer) || Number(a.shots.length === 1) - Number(b.shots.length === 1))
    .map((group, i) => ({ ...group, number: i + 1 }));
}

/** The layer whose step a photo was taken in; null for a repair, or without a step. */
function layerOf({ step }: RecordShot): Layer | null {
  return step === null ? null : LAYER_OF_STEP[step];
}

/** Photos that one another's `pair` leads to, near and far in order; in the order of the first of each. */
function linked(shots: readonly RecordShot[]): RecordShot[][] {
  const groups = new Map(shots.map((shot) => [shot.id, [shot]]));
  for (const { id, pair } of shots) {
    const [mine, other] = [groups.get(id)!, pair === null ? undefined : groups.get(pair)];
    if (other === undefined || other === mine) continue;
    const merged = [...mine, ...other];
    for (const shot of merged) groups.set(shot.id, merged);
  }
  const place = new Map(shots.map(({ id }, i) => [id, i]));
  const first = (group: readonly RecordShot[]) => Math.min(...group.map(({ id }) => place.get(id)!));
  return [...new Set(groups.values())]
    .toSorted((a, b) => first(a) - first(b))
    .map((group) =>
      group.toSorted((a, b) => DISTANCES.indexOf(a.distance) - DISTANCES.indexOf(b.distance) || place.get(a.id)! - place.get(b.id)!),
    );
}

function chunked(group: readonly RecordShot[]): RecordShot[][] {
  return Array.from({ length: Math.ceil(group.length / CHAIN) }, (_, i) => group.slice(i * CHAIN, (i + 1) * CHAIN));
}
