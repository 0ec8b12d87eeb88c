import type { Result } from '#lib/result.ts';
import { netDrop } from '#lib/trade/flood-levels.ts';
import { FALLS, floodLoad } from '#lib/trade/flood-load.ts';
import {
  againstProfile,
  contractProfile,
  DEPTH_PLACES,
  MODEL_CODE_PROFILE,
  UPC_FAMILY_PROFILE,
  type FloodProfile,
} from '#lib/trade/flood-profile.ts';
import { stopLevel } from '#lib/trade/flood-stop.ts';
import { smallestLoss } from '#lib/trade/flood.ts';
import { choiceFault, firstFault } from '#lib/trade/input.ts';
import { row, type ComputeFault, type Row } from './row.ts';

const HOUR_MS = 3_600_000;
const START_MS = 1_772_528_400_000;
const LEVEL = 'atMs: ms since 1970, levelMm: mm over any fixed zero, more is higher, resolutionMm: mm, step of the scale';
const BESIDE = '{ kind: pan, readings: list of levels, unlikeMm } or { kind: at-most, highMm }';

const PROFILES = { 'model-code': MODEL_CODE_PROFILE, 'upc-family': UPC_FAMILY_PROFILE };

function floodProfile({ key }: { key: keyof typeof PROFILES }): Result<FloodProfile, ComputeFault> {
  return firstFault([choiceFault('key', key, Object.keys(PROFILES))]) ?? { ok: true, value: PROFILES[key] };
}

export const FLOOD_ROWS: readonly Row[] = [
  row(floodLoad, {
    part: 'flood',
    what: 'Water in a sloped pan: depths, volume, mass, and load on the floor.',
    inputs: { areaM2: 'm2', depthAtThresholdMm: 'mm, 0 to 2000', slopeMmPerM: 'mm/m, 0 to 200', runMm: 'mm from threshold to drain, level', fall: `one of ${FALLS.join(', ')}: how the floor falls` },
    result: {
      depthAtDrainMm: 'mm', meanDepthMm: 'mm', volumeL: 'L', massKg: 'kg', loadAtDrainPa: 'Pa', meanLoadPa: 'Pa',
      shareOfDwellingLiveLoad: 'load at the drain over 40 lb/ft2', overStandardHead: 'true above 100 mm at the drain',
    },
    source: 'ASTM D5957-98(2021), note 1, 5.3 and note 2; IRC table R301.5',
    limits: 'Exact for a cone or one plane. Above 100 mm, or on a doubtful floor, a structural engineer is asked.',
    example: { areaM2: 1.3935456, depthAtThresholdMm: 50.8, slopeMmPerM: 20.8333, runMm: 914.4, fall: 'point' },
  }),
  row(smallestLoss, {
    part: 'flood',
    what: 'The smallest loss that levels can show, said before filling.',
    inputs: { resolutionMm: 'mm: step of the scale, 0.001 to 50', holdMs: 'ms', areaM2: 'm2', evaporation: '{ kind: pan, resolutionMm, unlikeMm } or { kind: at-most, highMm }' },
    result: { expandedMm: 'mm, 2 u', thresholdMm: 'mm: a fall up to here cannot be told from none', detectableMm: 'mm', detectableL: 'L', detectableMmPerDay: 'mm a day' },
    source: 'JCGM 100:2008, F.2.2.1, 5.1.2; JCGM 200:2012, 4.18',
    limits: 'Evaporation without a pan is never subtracted.',
    example: { resolutionMm: 1, holdMs: 24 * HOUR_MS, areaM2: 1.4, evaporation: { kind: 'pan', resolutionMm: 1, unlikeMm: 0.5 } },
  }),
  row(netDrop, {
    part: 'flood',
    what: 'Net drop with its expanded uncertainty, and what the levels can show.',
    inputs: { levels: `list of { mark: text, ${LEVEL} }`, beside: BESIDE, disturbed: 'true when water was added or let out', maxLossMm: 'mm, the loss that matters over the test, or null' },
    result: {
      marks: 'list of { mark, dropMm, expandedMm, counted }', elapsedMs: 'ms', dropMm: 'mm or null', spreadMm: 'mm', panDropMm: 'mm or null', netMm: 'mm or null',
      expandedMm: 'mm, 2 u, or null', hiddenUpToMm: 'mm or null', evidence: '{ conclusive, finding, aboveLimit } or { conclusive: false, reason, settle }',
    },
    source: 'JCGM 100:2008, F.2.2.1, 4.3.7, 5.1.2, 6.3.3; the verdicts are our own',
    limits: 'Says nothing of what was seen.',
    example: {
      levels: [{ mark: 'door', atMs: START_MS, levelMm: 50, resolutionMm: 1 }, { mark: 'door', atMs: START_MS + 24 * HOUR_MS, levelMm: 46, resolutionMm: 1 }],
      beside: { kind: 'pan', unlikeMm: 0.5, readings: [{ atMs: START_MS, levelMm: 80, resolutionMm: 1 }, { atMs: START_MS + 24 * HOUR_MS, levelMm: 78, resolutionMm: 1 }] },
      disturbed: false, maxLossMm: 3,
    },
  }),
  row(stopLevel, {
    part: 'flood',
    what: 'The height where the fall of a failing test stops.',
    inputs: { levels: `list of { ${LEVEL} } at one mark, at least three`, evaporationMmPerH: 'mm/h at most, 0 to 100' },
    result: { state: 'stopped, falling or no-fall', levelMm: 'mm, stopped', lowMm: 'mm, stopped', highMm: 'mm, stopped', fromMs: 'ms since 1970, stopped', toMs: 'ms since 1970, stopped', belowMm: 'mm, falling: the hole lies below' },
    source: 'JCGM 100:2008, F.2.2.1; geometry and our own judgement',
    limits: 'About the lowest hole it drained through; the interval is no certainty.',
    example: { levels: [60, 52, 47, 45, 45, 45, 45].map((levelMm, at) => ({ atMs: START_MS + at * HOUR_MS, levelMm, resolutionMm: 1 })), evaporationMmPerH: 0.1 },
  }),
  row(floodProfile, {
    part: 'flood',
    what: 'A published rule for a flood test.',
    inputs: { key: 'model-code or upc-family' },
    result: { key: 'its name', depthAt: `where depth is measured: ${DEPTH_PLACES.join(', ')}`, minDepthMm: 'mm, or null where the rule gives no number', minHoldMs: 'ms or null', source: 'place in the code' },
    source: 'IPC 312.9; UPC 411.8.1',
    limits: 'The code and edition in force are the person’s choice.',
    example: { key: 'model-code' },
  }),
  row(contractProfile, {
    part: 'flood',
    what: 'A flood test as a contract or an inspector words it.',
    inputs: { depthAt: `one of ${DEPTH_PLACES.join(', ')}`, minDepthMm: 'mm, 0 to 2000', minHoldMs: 'ms, 1 to a year', source: 'text: where it is written' },
    result: { key: 'contract', depthAt: 'as typed', minDepthMm: 'mm', minHoldMs: 'ms', source: 'as typed' },
    source: 'the contract',
    limits: 'Nothing is filled in.',
    example: { depthAt: 'drain', minDepthMm: 50, minHoldMs: 24 * HOUR_MS, source: 'contract, section 3' },
  }),
  row(againstProfile, {
    part: 'flood',
    what: 'What was done against what a rule asks.',
    inputs: { profile: '{ key, depthAt, minDepthMm, minHoldMs, source }, as floodProfile and contractProfile answer', depthMm: 'mm at the rule’s place', heldMs: 'ms' },
    result: { depth: 'met, not-met or no-number', hold: 'met, not-met or no-number', shortMm: 'mm', shortMs: 'ms' },
    source: 'the rule’s own',
    limits: 'Whether a leak was seen is for the person to say.',
    example: { profile: MODEL_CODE_PROFILE, depthMm: 51, heldMs: 15 * 60_000 },
  }),
]; // prettier-ignore
