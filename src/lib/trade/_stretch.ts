/** How fast a layer got on over a stretch of time, beside the pace its data sheet counts on: 1 is as fast, 0 stands still. */
export interface Pace {
  readonly fromMs: number;
  readonly toMs: number;
  readonly pace: number;
}

export interface Stretched {
  /** Never shorter than what the data sheet states; null when the layer stands still and nothing says for how long. */
  readonly waitMs: number | null;
  /** Of the wait: spoken for by a reading, by the projection, by nothing (counted at the sheet's own pace). */
  readonly knownMs: number;
  readonly projectedMs: number;
  readonly unknownMs: number;
  /** Of the unknown, what lies after the last reading: still to come, or never read. */
  readonly unknownAfterMs: number;
}

/** Ten years: what takes longer stands still. */
const LONGEST_MS = 3_660 * 86_400_000;

interface Segment {
  readonly endMs: number;
  /** null: no reading speaks for it. */
  readonly pace: number | null;
}

/**
 * The wait that `statedMs` becomes from `startMs` on. A reading speaks for its own time and `reachMs` before and after; where several
 * speak, the slowest counts, and none counts above 1: a slower reading never shortens a wait, nor does one more where nothing is projected.
 * `projectPace`: the pace after everything that readings speak for; null when nothing is known of it.
 */
export function stretch(
  stated: { readonly statedMs: number; readonly startMs: number; readonly reachMs: number },
  paces: readonly Pace[],
  projectPace: number | null,
): Stretched {
  let left = stated.statedMs;
  let at = stated.startMs;
  const spent = { known: 0, unknown: 0 };
  for (const { endMs, pace } of segments(stated.startMs, stated.reachMs, paces)) {
    const speed = pace ?? 1;
    const used = speed * (endMs - at) >= left ? left / speed : endMs - at;
    spent[pace === null ? 'unknown' : 'known'] += used;
    left -= used * speed;
    if (used < endMs - at || left <= 0) return done(stated.statedMs, spent, { projectedMs: 0, unknownAfterMs: 0 });
    at = endMs;
  }
  if (projectPace === null) return done(stated.statedMs, spent, { projectedMs: 0, unknownAfterMs: left });
  const projected = Math.min(1, projectPace);
  if (left > projected * LONGEST_MS)
    return { waitMs: null, knownMs: spent.known, projectedMs: 0, unknownMs: spent.unknown, unknownAfterMs: 0 };
  return done(stated.statedMs, spent, { projectedMs: left / projected, unknownAfterMs: 0 });
}

function done(
  statedMs: number,
  spent: { readonly known: number; readonly unknown: number },
  after: { readonly projectedMs: number; readonly unknownAfterMs: number },
): Stretched {
  const unknownMs = spent.unknown + after.unknownAfterMs;
  // Sums of shares may fall short of the whole by the last bit.
  const waitMs = Math.max(statedMs, Math.ceil(spent.known + unknownMs + after.projectedMs - 1e-3));
  return { waitMs, knownMs: spent.known, unknownMs, ...after };
}

/** Time from `startMs` cut wherever a reading begins or ceases to speak. */
function* segments(startMs: number, reachMs: number, paces: readonly Pace[]): Generator<Segment> {
  const spoken = paces
    .map(({ fromMs, toMs, pace }) => ({
      fromMs: Math.max(startMs, fromMs - reachMs),
      toMs: toMs + reachMs,
      pace: Math.min(1, Math.max(0, pace)),
    }))
    .filter(({ fromMs, toMs }) => toMs > fromMs)
    .sort((a, b) => a.fromMs - b.fromMs);
  const cuts = [...new Set(spoken.flatMap(({ fromMs, toMs }) => [fromMs, toMs]))].sort((a, b) => a - b);
  let active: Pace[] = [];
  let next = 0;
  let at = startMs;
  for (const endMs of cuts) {
    if (endMs === at) continue;
    for (; next < spoken.length && spoken[next]!.fromMs <= at; next++) active.push(spoken[next]!);
    active = active.filter(({ toMs }) => toMs > at);
    yield { endMs, pace: active.length === 0 ? null : Math.min(...active.map(({ pace }) => pace)) };
    at = endMs;
  }
}
