import { roomsOf, surfacesIn } from '#lib/job/proof.ts';
import type { JobState } from '#lib/job/state.ts';
import type { OwnRule, Room, Surface } from '#lib/record/kinds/setup.ts';
import { OWED } from '#lib/words/codes.ts';

/** What surfaces are called among each other: by their name, and by their room too where two rooms have one of that name. */
export function surfaceLabels(surfaces: readonly Surface[], rooms: readonly Room[]): ReadonlyMap<string, string> {
  const count = Map.groupBy(surfaces, ({ name }) => name);
  return new Map(
    surfaces.map(({ surface, name, room }) => {
      const of = rooms.find((one) => one.room === room);
      return [surface, of === undefined || count.get(name)!.length === 1 ? name : `${name}, ${of.name}`];
    }),
  );
}

/** What a photo may be said to show, in the words of the list of what is owed, or in the crew's own. */
export function ruleLabel(id: string, ownRules: readonly OwnRule[]): string {
  return ownRules.find(({ rule }) => `own-${rule}` === id)?.name ?? OWED[id as keyof typeof OWED]();
}

/** The room that holds these surfaces, or the job's name where there are several or none. */
export function roomOf(surfaces: readonly string[], job: JobState): string {
  const rooms = roomsOf(job).filter((room) => surfacesIn(room, job).some(({ surface }) => surfaces.includes(surface)));
  return rooms.length === 1 ? rooms[0]!.name : job.name;
}
