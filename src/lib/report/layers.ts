import { readingNm } from '../job/judged.ts';
import type { JobState } from '../job/project.ts';
import type { LayerProof } from '../job/proof.ts';
import { LAYER_OF_STEP } from '../job/systems.ts';
import type { Step } from '../record/kinds.ts';
import type { Verdict } from '../trade/limits.ts';
import type { Moment, RecordLayer, RecordReading } from './record-document.ts';

const WORST_FIRST: readonly Verdict[] = ['outside', 'not-proven', 'no-limit', 'within'];

/** A layer with what it owes, who worked on it from when to when, and its worst reading. */
export function recordLayer({ layer, stand, items, shown }: LayerProof, job: JobState, readings: readonly RecordReading[]): RecordLayer {
  const onLayer = (one: { step: Step | null }) => one.step !== null && LAYER_OF_STEP[one.step] === layer;
  const runs = job.runs.filter(onLayer);
  const shots = job.shots.filter(onLayer);
  const measured = readings.filter(onLayer);
  const moments: Moment[] = [
    ...runs.map((run) => ({ utc: run.startUtc, offsetMin: run.startOffsetMin })),
    ...shots.map(({ utc, offsetMin }) => ({ utc, offsetMin })),
    ...measured.map((reading) => reading.at),
  ].sort((a, b) => Date.parse(a.utc) - Date.parse(b.utc));
  const [worst] = measured.sort((a, b) => WORST_FIRST.indexOf(a.verdict) - WORST_FIRST.indexOf(b.verdict) || leastNm(a) - leastNm(b));
  return {
    layer,
    stand,
    owed: items.length,
    shown,
    items: items
      .map(({ rule, surface, shown: isShown, shot, reading }) => ({
        rule: rule.id,
        surface: surface.surface,
        shown: isShown,
        shot: shot?.id ?? null,
        reading: reading?.id ?? null,
      }))
      .sort((a, b) => Number(a.shown) - Number(b.shown)),
    first: moments[0] ?? null,
    last: moments.at(-1) ?? null,
    by: [...new Set([...runs, ...shots, ...measured].map((one) => one.by))],
    worst: worst?.id ?? null,
  };
}

function leastNm({ said: { text, value, to, unit } }: RecordReading): number {
  return readingNm(to === null ? { text, value, unit } : { text, value, to, unit }).fromNm;
}
