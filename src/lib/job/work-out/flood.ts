import { againstProfile, contractProfile, DEPTH_PLACES, MODEL_CODE_PROFILE, UPC_FAMILY_PROFILE } from '../../trade/flood-profile.ts';
import { stopLevel } from '../../trade/flood-stop.ts';
import { fail, ok } from '../../result.ts';
import { reckoning, type Found, type Reckoning } from './ask.ts';
import { choice, found, HOURS, HOURS_MS, LENGTH, several } from './asked.ts';

const HOUR_MS = 3_600_000;
const PROFILES = { 'model-code': MODEL_CODE_PROFILE, 'upc-family': UPC_FAMILY_PROFILE } as const;
const PROFILE_KEYS = Object.keys(PROFILES) as (keyof typeof PROFILES)[];

const against = (depth: string, hold: string, shortMm: number, shortMs: number): Found[] => [
  { what: 'depth', kind: 'word', code: depth },
  { what: 'hold', kind: 'word', code: hold },
  ...(shortMm > 0 ? [found('short-of-depth', LENGTH, shortMm)] : []),
  ...(shortMs > 0 ? [found('short-of-hold', { in: 'min', mm: 'min', si: 'min' }, shortMs / 60_000)] : []),
];

export const FLOOD_RECKONINGS: readonly Reckoning[] = [
  reckoning(
    'flood-rule',
    'flood',
    'IPC 312.9, UPC 408.7.5',
    { profile: choice(PROFILE_KEYS), depthMm: LENGTH, heldMs: HOURS_MS },
    (asked) => {
      const met = againstProfile({ ...asked, profile: PROFILES[asked.profile] });
      if (!met.ok) return met;
      return ok(against(met.value.depth, met.value.hold, met.value.shortMm, met.value.shortMs));
    },
  ),
  reckoning(
    'flood-contract',
    'flood',
    null,
    { depthAt: choice(DEPTH_PLACES), minDepthMm: LENGTH, minHoldMs: HOURS_MS, depthMm: LENGTH, heldMs: HOURS_MS },
    ({ depthAt, minDepthMm, minHoldMs, depthMm, heldMs }) => {
      const profile = contractProfile({ depthAt, minDepthMm, minHoldMs, source: 'contract' });
      if (!profile.ok) return profile;
      const met = againstProfile({ profile: profile.value, depthMm, heldMs });
      if (!met.ok) return met;
      return ok(against(met.value.depth, met.value.hold, met.value.shortMm, met.value.shortMs));
    },
  ),
  reckoning(
    'stop-level',
    'flood',
    'JCGM 100:2008',
    { hours: several(HOURS), levels: several(LENGTH), resolutionMm: LENGTH, evaporationMmPerH: LENGTH },
    ({ hours, levels, resolutionMm, evaporationMmPerH }) => {
      if (hours.length !== levels.length) return fail({ code: 'empty', field: 'levels', bound: hours.length });
      const stop = stopLevel({
        levels: levels.map((levelMm, at) => ({ atMs: hours[at]! * HOUR_MS, levelMm, resolutionMm })),
        evaporationMmPerH,
      });
      if (!stop.ok) return stop;
      const state: Found = { what: 'fall', kind: 'word', code: stop.value.state };
      if (stop.value.state === 'stopped') {
        return ok([
          state,
          found('stops-at', LENGTH, stop.value.levelMm),
          found('hole-between', LENGTH, stop.value.lowMm, stop.value.highMm),
        ]);
      }
      return ok(stop.value.state === 'falling' ? [state, found('hole-below', LENGTH, stop.value.belowMm)] : [state]);
    },
  ),
];
