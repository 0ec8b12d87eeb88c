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

/** Whether an entry is a photo of a coat whose misses were mended or owned up to since. */
export function isAnswered(id: string, job: JobState): boolean {
  return job.facts.coverage.some((one) => one.id === id && standing(one.data).length > 0) && openMisses(job).every((one) => one.id !== id);
}

/** Misses found again by the same taps, with what a person had said of them: those struck out and those added. */
export function edited(found: readonly Miss[], said: readonly Miss[]): Miss[] {
  const struck = ({ x, y }: Miss) => said.some((one) => one.struck === true && one.x === x && one.y === y);
  return [...found.map((miss): Miss => (struck(miss) ? { ...miss, struck: true } : miss)), ...said.filter(({ added }) => added === true)];
}
