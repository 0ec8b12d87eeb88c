import type { Places } from './standing.ts';

/** Which pieces lie, and where one can stand and get out then. */
export interface Covered {
  /** How many laid pieces stop one at a place. */
  readonly count: Uint16Array;
  /** 1 + the doorway one gets out by, 0 where there is no way. */
  readonly exit: Uint16Array;
}

/** Where one gets to when the pieces that stop one at the given places lie. */
export function coveredBy(places: Places, stopped: readonly Int32Array[]): Covered {
  const count = new Uint16Array(places.open.length);
  for (const piece of stopped) for (const place of piece) count[place]!++;
  const exit = new Uint16Array(places.open.length);
  const free = new Uint8Array(places.open.length);
  for (let place = 0; place < free.length; place++) free[place] = Number(places.open[place] === 1 && count[place] === 0);
  const queue: number[] = [];
  for (const { place, doorway } of places.exits) {
    if (free[place] === 0 || exit[place] !== 0) continue;
    exit[place] = doorway + 1;
    queue.push(place);
  }
  spread(places.xs.length, queue, exit, free);
  return { count, exit };
}

/** Finds out where one gets to when of one laid piece only a part lies. The answer holds until the next question. */
export type Uncover = (covered: Covered, piece: Int32Array, part: Int32Array) => Uint16Array;

/**
 * `piece` and `part` are the places where the whole piece, and the part of it that lies, stop one. The ways out stay as they were, and more
 * come to them from what is freed.
 */
export function uncoverOn(places: Places): Uncover {
  const free = new Uint8Array(places.open.length);
  const exit = new Uint16Array(places.open.length);
  const columns = places.xs.length;
  return (covered, piece, part) => {
    for (let place = 0; place < free.length; place++) free[place] = Number(places.open[place] === 1 && covered.count[place] === 0);
    for (const place of piece) if (covered.count[place] === 1) free[place] = 1;
    for (const place of part) free[place] = 0;
    exit.set(covered.exit);
    const queue: number[] = [];
    for (const place of piece) {
      if (free[place] === 0) continue;
      const from = exitBeside(columns, place, covered.exit);
      if (from === 0) continue;
      exit[place] = from;
      queue.push(place);
    }
    spread(columns, queue, exit, free);
    return exit;
  };
}

function exitBeside(columns: number, place: number, exit: Uint16Array): number {
  const column = place % columns;
  const left = column > 0 ? exit[place - 1]! : 0;
  const right = column < columns - 1 ? exit[place + 1]! : 0;
  return left || right || (exit[place - columns] ?? 0) || (exit[place + columns] ?? 0);
}

function spread(columns: number, queue: number[], exit: Uint16Array, free: Uint8Array): void {
  const enter = (next: number, from: number) => {
    if (free[next] !== 1 || exit[next] !== 0) return;
    exit[next] = exit[from]!;
    queue.push(next);
  };
  for (let i = 0; i < queue.length; i++) {
    const place = queue[i]!;
    const column = place % columns;
    if (column > 0) enter(place - 1, place);
    if (column < columns - 1) enter(place + 1, place);
    enter(place - columns, place);
    enter(place + columns, place);
  }
}
