import { batchState, combedState, layableBatch } from '../../trade/mortar-clock.ts';
import { bagsNeeded, BED_SHARE, expectedCoverage, meanBed, NOTCHES, partBagWater } from '../../trade/mortar.ts';
import { ok } from '../../result.ts';
import { reckoning, type Reckoning } from './ask.ts';
import { AREA, choice, found, LENGTH, MINUTES, MINUTES_MS, NUMBER, optional, PERCENT, POWDER, WATER } from './asked.ts';

const MINUTE_MS = 60_000;
/** Where a pail or a combed bed stands is reckoned from minutes past; the moment itself does not matter. */
const BEGUN_MS = 0;
const BED = { in: 'in', mm: 'mm', si: 'mm' } as const;
const COVERAGE = { in: 'ft2', mm: 'm2', si: 'm2' } as const;

export const MORTAR_RECKONINGS: readonly Reckoning[] = [
  reckoning('part-bag-water', 'mortar', null, { bagKg: POWDER, waterMinL: WATER, waterMaxL: WATER, powderKg: POWDER }, (asked) => {
    const water = partBagWater(asked);
    return water.ok ? ok([found('water', WATER, water.value.minL, water.value.maxL)]) : water;
  }),
  reckoning(
    'bags',
    'mortar',
    null,
    {
      notch: choice(NOTCHES),
      widthMm: LENGTH,
      depthMm: LENGTH,
      toothMm: LENGTH,
      angleDeg: NUMBER,
      bagYieldL: WATER,
      areaM2: AREA,
      lossPct: PERCENT,
    },
    ({ notch, widthMm, depthMm, toothMm, angleDeg, bagYieldL, areaM2, lossPct }) => {
      const trowel = { notch, widthMm, depthMm, toothMm };
      const bed = meanBed({ trowel, angleDeg });
      if (!bed.ok) return bed;
      const upright = meanBed({ trowel, angleDeg: 90 });
      if (!upright.ok) return upright;
      const coverage = expectedCoverage({ uprightBedMm: upright.value.bedMm, bagYieldL, share: BED_SHARE });
      if (!coverage.ok) return coverage;
      const bags = bagsNeeded({ areaM2, lossPct, ...coverage.value });
      if (!bags.ok) return bags;
      return ok([
        found('bed', BED, bed.value.bedMm),
        found('bag-covers', COVERAGE, coverage.value.leastM2PerBag, coverage.value.mostM2PerBag),
        { what: 'bags-least', kind: 'number', value: bags.value.fewestBags },
        { what: 'bags-most', kind: 'number', value: bags.value.mostBags },
      ]);
    },
  ),
  reckoning(
    'batches',
    'mortar',
    null,
    { leftM2: AREA, paceM2: AREA, bagM2: AREA, bagKg: POWDER, slakeMs: MINUTES_MS, potLifeMs: MINUTES_MS, batchKg: POWDER },
    ({ leftM2, paceM2, bagM2, bagKg, slakeMs, potLifeMs, batchKg }) => {
      const batch = layableBatch({
        leftM2,
        rateM2PerH: paceM2,
        spreadKgM2: bagKg / bagM2,
        slakeMs,
        potLifeMs,
        batchKg,
      });
      if (!batch.ok) return batch;
      const { mostM2, mostKg, batches, batchLaidInMs, batchDiesFirst } = batch.value;
      return ok([
        { what: 'batch-lives', kind: 'word', code: batchDiesFirst ? 'dies-first' : 'laid-in-time' },
        found('batch-laid-in', MINUTES, batchLaidInMs / MINUTE_MS),
        found('batch-most', POWDER, mostKg),
        found('area-in-pot-life', COVERAGE, mostM2),
        { what: 'batches', kind: 'number', value: batches },
      ]);
    },
  ),
  reckoning(
    'pail-now',
    'mortar',
    null,
    { agoMs: MINUTES_MS, slakeMs: MINUTES_MS, potLifeMs: MINUTES_MS, openTimeMs: optional(MINUTES_MS) },
    (asked) => {
      const nowMs = BEGUN_MS + asked.agoMs;
      const pail = batchState({ mixedAtMs: BEGUN_MS, slakeMs: asked.slakeMs, potLifeMs: asked.potLifeMs, nowMs });
      if (!pail.ok) return pail;
      const told = [
        { what: 'pail', kind: 'word', code: pail.value.state } as const,
        found('time-left', MINUTES, pail.value.leftMs / MINUTE_MS),
      ];
      if (asked.openTimeMs === null) return ok(told);
      const bed = combedState({ combedAtMs: BEGUN_MS, openTimeMs: asked.openTimeMs, nowMs });
      return bed.ok ? ok([...told, { what: 'bed-combed-then', kind: 'word', code: bed.value.state }]) : bed;
    },
  ),
];
