import type { Coverage, Miss } from '../record/kinds/photo.ts';
import type { Fact, JobState } from './state.ts';

/** A coat's misses in one photo that stand: those found or added, and not struck out. */
export function standing({ misses }: Pick<Coverage, 'misses'>): readonly Miss[] {
  return misses.filter(({ struck }) => struck !== true);
}

/**
 * Photos of a coat with misses that nobody has mended or owned up to. A repair that names the entry closes them; what a photo after it
 * still shows stands in an entry of its own.
 */
export function openMisses(job: JobState): readonly Fact<'coverage'>[] {
  const { coverage, repair, deviation } = job.facts;
  const answered = new Set([
    ...repair.flatMap(({ data, open }) => (open ? [] : data.of)),
    ...deviation.flatMap(({ data, open }) => (open || data.against === null ? [] : [data.against])),
  ]);
  return coverage.filter(({ id, data }) => standing(data).length > 0 && !answered.has(id));
}
