import { ok } from '../result.ts';
import {
  choiceFault,
  DURATION_MS,
  firstFault,
  missingFault,
  numberFault,
  textFault,
  type Computed,
  type InputFault,
  type Span,
} from './input.ts';
import { LINER_TEST } from './sources.ts';

/** Where the water of a flood test is measured, in the words of the rule. */
export const DEPTH_PLACES = ['threshold', 'rough-threshold-top', 'drain', 'high-point'] as const;
export type DepthPlace = (typeof DEPTH_PLACES)[number];

/** A published or agreed rule for a flood test. Null: the rule as it was read gives no number, and the book invents none. */
export interface FloodProfile {
  readonly key: 'model-code' | 'upc-family' | 'contract';
  readonly depthAt: DepthPlace;
  readonly minDepthMm: number | null;
  readonly minHoldMs: number | null;
  readonly source: string;
}

const MM_PER_IN = 25.4;
const MINUTE_MS = 60_000;
/** Deepest that a pan or a wet room is ever dammed; far above what a floor should carry. */
export const DEPTH_MM: Span = [0, 2000];

/**
 * IPC 312.9, liner test: potable water at least 2 in deep measured at the threshold, held at least 15 min, no evidence of leakage.
 * Compared in inches, in which the rule is written: 50.8 mm meets it, though the code prints 51 mm beside.
 */
export const MODEL_CODE_PROFILE: FloodProfile = {
  key: 'model-code',
  depthAt: 'threshold',
  minDepthMm: Number(LINER_TEST.depthIn) * MM_PER_IN,
  minHoldMs: LINER_TEST.holdMin * MINUTE_MS,
  source: LINER_TEST.cite,
};

/**
 * UPC 408.7.5 (411.8.1 of older editions): filled to the level of the rough threshold. No duration stood in what was read of it, so
 * none is set here. That the plug lets water reach both sides of the subpan at the clamping ring is from memory, and not part of it.
 */
export const UPC_FAMILY_PROFILE: FloodProfile = {
  key: 'upc-family',
  depthAt: 'rough-threshold-top',
  minDepthMm: null,
  minHoldMs: null,
  source: 'UPC 411.8.1',
};

/**
 * A flood test as a contract or an inspector words it, typed by the crew.
 * Errors: a place that is none of DEPTH_PLACES, a depth outside 0 to 2 m, a hold outside 1 ms to a year.
 */
export function contractProfile(typed: {
  readonly depthAt: DepthPlace;
  readonly minDepthMm: number;
  readonly minHoldMs: number;
  readonly source: string;
}): Computed<FloodProfile> {
  const { depthAt, minDepthMm, minHoldMs, source } = typed;
  const fault = firstFault([
    choiceFault('depthAt', depthAt, DEPTH_PLACES),
    numberFault('minDepthMm', minDepthMm, DEPTH_MM),
    numberFault('minHoldMs', minHoldMs, DURATION_MS),
    textFault('source', source),
  ]);
  return fault ?? ok({ key: 'contract', depthAt, minDepthMm, minHoldMs, source });
}

/** met, not met, or the rule names no such number. */
export type ProfileAnswer = 'met' | 'not-met' | 'no-number';

/**
 * What was done against what the rule asks: the depth at the rule's place, and how long the water stood. Whether a leak was seen is
 * for the person to say. A reading is taken as it was read; only its number counts, as with every limit of one value.
 * Errors: a depth outside 0 to 2 m, a time outside 0 to a year, in what was done and in the rule.
 */
export function againstProfile(done: {
  readonly profile: FloodProfile;
  readonly depthMm: number;
  readonly heldMs: number;
}): Computed<{ depth: ProfileAnswer; hold: ProfileAnswer; shortMm: number; shortMs: number }> {
  const { profile, depthMm, heldMs } = done;
  const fault = firstFault([
    ...profileFaults(profile),
    numberFault('depthMm', depthMm, DEPTH_MM),
    numberFault('heldMs', heldMs, [0, DURATION_MS[1]]),
  ]);
  if (fault) return fault;
  const answer = (value: number, least: number | null): ProfileAnswer =>
    least === null ? 'no-number' : value >= least ? 'met' : 'not-met';
  return ok({
    depth: answer(depthMm, profile.minDepthMm),
    hold: answer(heldMs, profile.minHoldMs),
    shortMm: Math.max(0, (profile.minDepthMm ?? 0) - depthMm),
    shortMs: Math.max(0, (profile.minHoldMs ?? 0) - heldMs),
  });
}

function profileFaults(profile: FloodProfile): (InputFault | null)[] {
  const missing = missingFault('profile', profile);
  if (missing) return [missing];
  const { minDepthMm, minHoldMs } = profile;
  return [
    minDepthMm === null ? null : numberFault('profile.minDepthMm', minDepthMm, DEPTH_MM),
    minHoldMs === null ? null : numberFault('profile.minHoldMs', minHoldMs, DURATION_MS),
  ];
}
