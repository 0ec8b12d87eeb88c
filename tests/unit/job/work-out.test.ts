import { RECKONINGS } from '#lib/job/work-out/reckonings.ts';
import { workOut, type Found, type Reckoning } from '#lib/job/work-out/ask.ts';
import { WORK, WORK_ASK, WORK_FOR, WORK_FOUND, WORK_WORD } from '#lib/words/work-out.ts';
import { describe, expect, it } from 'vitest';

const one = (code: string): Reckoning => RECKONINGS.find((each) => each.code === code)!;
const FILM = { solidsPct: '80', thinnerPct: '0' };
const RULE = { min: '1/4', max: '', unit: 'in/ft' };

/** What a person types, for each of them; a bare number counts in the unit that its field shows. */
const TYPED: Readonly<Record<string, Readonly<Record<string, string>>>> = {
  'slope-of-heights': { highMm: '3/4', lowMm: '0', runMm: '3', stepMm: '1/16', ...RULE, min: '0.25' },
  'slope-of-level': { reading: '2.1', shownIn: '%', step: '0.1', min: '2', max: '', unit: '%' },
  flatness: { gapMm: '1/16', stepMm: '0', edgeMm: '10' },
  'height-over': { topMm: '4', baseMm: '1', buildUpMm: '1/2', stepMm: '1/16', minMm: '2', maxMm: '9' },
  'moisture-through-tile': { scale: 'relative', reading: '60', dryReference: '20' },
  'membrane-contact': { coveredPct: '100\n100', stepPct: '0', blisters: '0' },
  'tile-contact': { coveredPct: '96\n94\n97', place: 'wet' },
  'part-bag-water': { bagKg: '50', waterMinL: '6', waterMaxL: '6', powderKg: '25' },
  bags: {
    ...{ notch: 'square', widthMm: '1/4', depthMm: '1/4', toothMm: '1/4', angleDeg: '45' },
    ...{ bagYieldL: '16', areaM2: '120', lossPct: '10' },
  },
  batches: { leftM2: '60', paceM2: '30', bagM2: '90', bagKg: '50', slakeMs: '10', potLifeMs: '60', batchKg: '25' },
  'pail-now': { agoMs: '70', slakeMs: '10', potLifeMs: '90', openTimeMs: '30' },
  'dry-of-wet': { wetLowUm: '60', ...FILM },
  'wet-for-dry': { dryUm: '20', solidsPct: '55', thinnerPct: '0', coatMaxUm: '20' },
  'film-coverage': { dryUm: '2', solidsPct: '35', lossPct: '0', areaM2: '100' },
  'film-by-pail': { usedL: '1', areaM2: '60', lossLowPct: '2', lossHighPct: '10', readings: '22\n24' },
  'litres-left': { areaM2: '60', wetUm: '40', usedL: '0.5', lossLowPct: '2', lossHighPct: '10' },
  coupon: { bareMm: '6.02 mm\n6.04 mm', coatedMm: '6.55 mm\n6.60 mm', stepMm: '0.01' },
  'film-each': { readings: '21\n22\n24', minUm: '20', maxUm: '' },
  'film-by-spots': { spots: '9\n8\n10\n9\n9\n9\n10\n10\n9', perSpot: '3', minUm: '8', maxUm: '12' },
  'film-by-nominal': { readings: '20\n21\n19\n22\n20', nominalUm: '20', maxUm: '' },
  'film-sampling': { areaM2: '80', riskPlaces: '4', level: 'core' },
  'dew-point': { airC: '77', humidityPct: '60', surfaceC: '70' },
  'drying-air': { airC: '86', humidityPct: '40', surfaceC: '86', windKmh: '20' },
  'drying-pace': { airC: '59', humidityPct: '75', surfaceC: '55', sheetAirC: '70', sheetHumidityPct: '50' },
  'mortar-age': { hours: '24\n12', temps: '54\n60', referenceC: '68', activationK: '5000', datumC: '12' },
  comb: { teeth: '22\n24\n26\n28', lastWet: '24', firstDry: '26' },
  'flood-rule': { profile: 'model-code', depthMm: '1 1/2', heldMs: '0.2' },
  'flood-contract': { depthAt: 'drain', minDepthMm: '2', minHoldMs: '24', depthMm: '2', heldMs: '25' },
  'stop-level': {
    hours: '0\n1\n2\n3\n4\n5\n6',
    levels: '60 mm\n52 mm\n47 mm\n45 mm\n45 mm\n45 mm\n45 mm',
    resolutionMm: '1 mm',
    evaporationMmPerH: '0.1 mm',
  },
  'time-ahead': { amount: '90', publishedRate: '25', done: '60\n80', used: '4\n4' },
  'planned-used': { planned: '4\n2', used: '5\n2' },
};

function foundIn(code: string, units: 'in' | 'mm' = 'in', change: Readonly<Record<string, string>> = {}): readonly Found[] {
  const answer = workOut(one(code), { ...TYPED[code], ...change }, units);
  if (!answer.ok) throw new Error(`${code}: ${JSON.stringify(answer.fault)}`);
  return answer.value;
}

it('each is tried here', () => {
  expect(Object.keys(TYPED).toSorted()).toEqual(RECKONINGS.map(({ code }) => code).toSorted());
});

describe.each(RECKONINGS.map((each) => [each.code, each] as const))('%s', (code, each) => {
  it('has a name, a line, and a word for each field, choice and result', () => {
    expect(Object.keys(WORK)).toContain(code);
    expect(Object.keys(WORK_FOR)).toContain(code);
    for (const field of Object.keys(each.asks)) expect(Object.keys(WORK_ASK)).toContain(field);
    for (const line of foundIn(code)) {
      expect(Object.keys(WORK_FOUND)).toContain(line.what);
      if (line.kind === 'word') expect(Object.keys(WORK_WORD)).toContain(line.code);
    }
  });
  it('says which field is empty, and takes none that is not there', () => {
    for (const [field, ask] of Object.entries(each.asks)) {
      const answer = workOut(each, { ...TYPED[code], [field]: '' }, 'in');
      if ('optional' in ask) expect(answer.ok, field).toBe(true);
      else expect(answer, field).toMatchObject({ ok: false, fault: { field } });
    }
  });
  it('tells a fault at a field of its own, and never throws', () => {
    for (const field of Object.keys(each.asks)) {
      for (const typed of ['x', '-1', '9999999999', '1,500', '\n', '1e5', '0', '٣', '5 kg', '💧'.repeat(50)]) {
        const answer = workOut(each, { ...TYPED[code], [field]: typed }, 'mm');
        if (!answer.ok) expect(Object.keys(each.asks), `${field}: ${typed}`).toContain(answer.fault.field);
      }
    }
  });
});

// [what is worked out, in which units, the line of the answer, its low end, its high end, source]. Worked by hand from the source's own numbers.
const CHECKED: readonly [
  code: string,
  units: 'in' | 'mm',
  what: string,
  low: number,
  high: number,
  change: Record<string, string>,
  source: string,
][] = [
  ['part-bag-water', 'in', 'water', 2.839, 2.839, {}, 'a trade guide: 6 qt for 50 lb, 3 qt (2.839 L) for 25 lb'],
  ['dry-of-wet', 'in', 'dry', 1219.2, 1219.2, {}, 'DFT = WFT x VS: 60 mil wet at 80 % is 48 mil'],
  ['film-coverage', 'in', 'area-per-litre', 6.89, 6.89, {}, '10 VS% / DFT: 35 % at 50.8 µm'],
  ['comb', 'in', 'wet-between', 609.6, 660.4, {}, 'ASTM D4414-95(2020): between the last wet tooth and the next'],
  ['flatness', 'in', 'gap-allowed', 3.175, 3.175, {}, 'ANSI A108.02: 1/8 in in 10 ft'],
  ['flood-rule', 'in', 'short-of-depth', 12.7, 12.7, {}, 'IPC 312.9: 2 in'],
  ['flood-rule', 'in', 'short-of-hold', 3, 3, {}, 'IPC 312.9: 15 min'],
  ['flood-rule', 'mm', 'short-of-depth', 10.8, 10.8, { depthMm: '40' }, 'IPC 312.9: 2 in, 50.8 mm'],
];

it.each(CHECKED)('%s in %s: %s', (code, units, what, low, high, change) => {
  const line = foundIn(code, units, change).find((each) => each.what === what && each.kind === 'amount');
  if (line?.kind !== 'amount') throw new Error(`no ${what}`);
  expect(line.low).toBeCloseTo(low, 2);
  expect(line.high).toBeCloseTo(high, 2);
});

it('a unit typed along counts, whichever the job is in, and a doubtful number is asked about', () => {
  const water = (typed: Record<string, string>) => workOut(one('part-bag-water'), { ...TYPED['part-bag-water'], ...typed }, 'mm');
  const inMetric = water({ bagKg: '50 lb', powderKg: '25 lb', waterMinL: '6 qt', waterMaxL: '6 qt' });
  expect(inMetric).toMatchObject({ ok: true, value: [{ low: expect.closeTo(2.839, 3) as number }] });
  expect(water({ bagKg: '1,500' })).toMatchObject({
    ok: false,
    fault: { code: 'in-doubt', field: 'bagKg', offers: ['1500 kg', '1.5000 kg'] },
  });
  expect(water({ bagKg: '5 qt' })).toMatchObject({ ok: false, fault: { code: 'other-dimension', field: 'bagKg' } });
});

it('a bound is told in what the field asks for', () => {
  const pail = workOut(one('pail-now'), { ...TYPED['pail-now'], potLifeMs: '9999999' }, 'in');
  // A year of minutes.
  expect(pail).toMatchObject({ ok: false, fault: { field: 'potLifeMs', code: 'too-large', bound: 366 * 24 * 60 } });
});
