import { readingBase } from '../job/judged.ts';
import type { JobState } from '../job/state.ts';
import type { LayerProof, Owed, OwedStand } from '../job/proof.ts';
import { LAYER_OF_STEP, MEASURES_OF_STEP, type Layer } from '../job/systems.ts';
import { STEPS, type Step } from '../record/kinds/setup.ts';
import type { Verdict } from '../trade/limits.ts';
import type { Moment, RecordLayer, RecordOwed, RecordReading } from './record-document.ts';

const WORST_FIRST: readonly Verdict[] = ['outside', 'not-proven', 'no-limit', 'within'];
const MISSING_FIRST: readonly OwedStand[] = ['owed', 'covered', 'not-done', 'shown'];

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
  return {
    layer,
    stand,
    owed: items.length,
    shown,
    items: items.map(recordOwed).sort((a, b) => MISSING_FIRST.indexOf(a.stand) - MISSING_FIRST.indexOf(b.stand)),
    first: moments[0] ?? null,
    last: moments.at(-1) ?? null,
    by: [...new Set([...runs, ...shots, ...measured].map((one) => one.by))],
    worst: worstOf(layer, measured)?.id ?? null,
  };
}

function recordOwed({ key, rule, room, surfaces, coat, stand, shot, reading, notDone }: Owed): RecordOwed {
  return {
    key,
    rule: rule.id,
    room: room.room,
    surfaces: surfaces.map(({ surface }) => surface),
    coat,
    stand,
    shot: shot?.id ?? null,
    reading: reading?.id ?? null,
    notDone: notDone?.id ?? null,
  };
}

/** Measures differ in their dimension, so values are compared only within one. */
function worstOf(layer: Layer, readings: readonly RecordReading[]): RecordReading | undefined {
  const measures = STEPS.filter((step) => LAYER_OF_STEP[step] === layer).flatMap((step) => MEASURES_OF_STEP[step]);
  const rank = ({ what }: RecordReading) => (measures.includes(what) ? measures.indexOf(what) : measures.length);
  return readings.toSorted(
    (a, b) =>
      WORST_FIRST.indexOf(a.verdict) - WORST_FIRST.indexOf(b.verdict) ||
      rank(a) - rank(b) ||
      (a.what === b.what ? leastBase(a) - leastBase(b) : 0),
  )[0];
}

function leastBase({ said: { value, to, unit } }: RecordReading): number {
  return readingBase(to === null ? { text: '', value, unit } : { text: '', value, to, unit }).from;
}
