import type { Places } from './standing.ts';

/** Which pieces lie, and where one can stand and get out then. */
export interface Covered {
  /** How many laid pieces stop one at a place. */
  readonly count: Uint16Array;
  /** 1 where one can stand. */
  readonly free: Uint8Array;
  /** 1 + the doorway one gets out by, 0 where there is no way. */
  readonly exit: Uint16Array;
}

/** Where one gets to when the pieces that stop one at the given places lie. */
export function coveredBy(places: Places, stopped: readonly Int32Array[]): Covered {
  const { open, exits } = places;
  const count = new Uint16Array(open.length);
  for (const piece of stopped) for (const place of piece) count[place]!++;
  const free = new Uint8Array(open.length);
  for (let place = 0; place < free.length; place++) free[place] = Number(open[place] === 1 && count[place] === 0);
  const exit = new Uint16Array(open.length);
  const queue: number[] = [];
  enterByDoors(exits, free, exit, queue);
  spread(places.xs.length, queue, free, exit);
  return { count, free, exit };
}

/** Finds out where one gets to when of one laid piece only a part lies. The answer holds until the next question. */
export type Uncover = (covered: Covered, piece: Int32Array, part: Int32Array) => Uint16Array;

/**
 * `piece` and `part` are the places where the whole piece, and the part of it that lies, stop one. The ways out stay as they were, and more
 * come to them from what is freed.
 */
export function uncoverOn({ xs, open, exits }: Places): Uncover {
  const columns = xs.length;
  const free = new Uint8Array(open.length);
  const exit = new Uint16Array(open.length);
  return (covered, piece, part) => {
    free.set(covered.free);
    exit.set(covered.exit);
    for (const place of piece) if (covered.count[place] === 1) free[place] = 1;
    for (const place of part) free[place] = 0;
    const queue: number[] = [];
    for (const place of piece) {
      if (free[place] === 0) continue;
      const from = exitBeside(columns, place, covered.exit);
      if (from === 0) continue;
      exit[place] = from;
      queue.push(place);
    }
    enterByDoors(exits, free, exit, queue);
    spread(columns, queue, free, exit);
    return exit;
  };
}

/** The least doorway one gets to from each, by what is marked in `exit`: doorways one gets from one to the other inside have the same. */
export function waysOut(columns: number, exit: Uint16Array): Map<number, number> {
  const ways = new Map<number, number>();
  const wayOf = (mark: number): number => {
    const way = ways.get(mark) ?? mark;
    if (way === mark) ways.set(mark, mark);
    return way === mark ? mark : wayOf(way);
  };
  const join = (a: number, b: number) => {
    if (a === 0 || b === 0 || a === b) return;
    const [one, other] = [wayOf(a), wayOf(b)];
    ways.set(Math.max(one, other), Math.min(one, other));
  };
  exit.forEach((mark, place) => {
    if (mark === 0) return;
    wayOf(mark);
    if (place % columns > 0) join(mark, exit[place - 1]!);
    if (place >= columns) join(mark, exit[place - columns]!);
  });
  return new Map([...ways.keys()].map((mark) => [mark, wayOf(mark)]));
}

function exitBeside(columns: number, place: number, exit: Uint16Array): number {
  const column = place % columns;
  const left = column > 0 ? exit[place - 1]! : 0;
  const right = column < columns - 1 ? exit[place + 1]! : 0;
  const below = place >= columns ? exit[place - columns]! : 0;
  const above = place + columns < exit.length ? exit[place + columns]! : 0;
  return left || right || below || above;
}

function enterByDoors(exits: Places['exits'], free: Uint8Array, exit: Uint16Array, queue: number[]): void {
  for (const { place, doorway } of exits) {
    if (free[place] === 0 || exit[place] !== 0) continue;
    exit[place] = doorway + 1;
    queue.push(place);
  }
}

/** Marks the free places one gets to from those in the queue. */
function spread(columns: number, queue: number[], free: Uint8Array, exit: Uint16Array): void {
  const enter = (next: number, mark: number) => {
    if (free[next] === 0 || exit[next] !== 0) return;
    exit[next] = mark;
    queue.push(next);
  };
  for (let i = 0; i < queue.length; i++) {
    const place = queue[i]!;
    const column = place % columns;
    const mark = exit[place]!;
    if (column > 0) enter(place - 1, mark);
    if (column < columns - 1) enter(place + 1, mark);
    if (place >= columns) enter(place - columns, mark);
    if (place + columns < free.length) enter(place + columns, mark);
  }
}
