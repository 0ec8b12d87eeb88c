import type { Draft, Kind } from '../record/kinds.ts';
import type { Line } from './state.ts';

/** Kinds that are set up under an id of their own, and the field that holds it. */
const OWN_ID = {
  room: 'room',
  surface: 'surface',
  limit: 'limit',
  material: 'material',
  'own-system': 'system',
  'own-rule': 'rule',
} as const satisfies Partial<Record<Kind, string>>;
export type TakenBack = keyof typeof OWN_ID;

/**
 * The withdrawals that take a thing of the set-up back, all its versions; null while other entries speak of it, as they would then speak
 * of nothing. The entries stay in the log, marked withdrawn.
 */
export function takeBack(lines: readonly Line[], kind: TakenBack, id: string): Draft[] | null {
  const standing = lines.filter((line) => line.standing.state !== 'withdrawn').map(({ entry }) => entry.body);
  const ids = standing.filter((body) => body.kind === kind && body.data[OWN_ID[kind]] === id).map((body) => body.id);
  const others = standing.filter((body) => !ids.includes(body.id) && !(body.kind === 'amendment' && ids.includes(String(body.data['of']))));
  const named = kind === 'own-rule' ? `own-${id}` : id;
  if (ids.length === 0 || others.some(({ data }) => names(data, named))) return null;
  return ids.map((of) => ({ kind: 'withdrawal', refs: [of], data: { of, why: '' } }));
}

/** Whether an id stands anywhere in an entry's data, alone or in a key such as `film:ID:1`, `corner:ID@corner-2` or `own:ID`; also of a kind this version does not know. */
function names(data: unknown, id: string): boolean {
  if (typeof data === 'string') return data.split(/[:@]/).includes(id);
  return typeof data === 'object' && data !== null && Object.values(data).some((one) => names(one, id));
}
