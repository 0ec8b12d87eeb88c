/** Why the levels settle nothing. */
export type Unsettled = 'disturbed' | 'read-once' | 'pan-times-differ' | 'no-loss-named' | 'may-be-evaporation' | 'too-coarse';

/** What would settle it; `resolutionMm` is the coarsest scale that is fine enough. */
export type Settle =
  | { readonly code: 'start-anew' | 'read-again' | 'pan-with-marks' | 'name-a-loss' | 'control-pan' | 'better-pan' }
  | { readonly code: 'finer-scale'; readonly resolutionMm: number };

/**
 * What the levels can show, apart from what was seen. `loss`: the level fell by more than evaporation and reading explain;
 * `aboveLimit` says whether by more than the loss that matters, null when that stays open. `no-loss-above-limit`: whatever was lost is
 * no more than the loss that matters.
 */
export type LevelEvidence =
  | { readonly conclusive: true; readonly finding: 'loss'; readonly aboveLimit: boolean | null }
  | { readonly conclusive: true; readonly finding: 'no-loss-above-limit' }
  | { readonly conclusive: false; readonly reason: Unsettled; readonly settle: Settle };

/** A net drop to be judged. `fixedMm` is what a scale without steps would leave of `expandedMm`, `highMm` what may have evaporated. */
export interface Judged {
  readonly netMm: number | null;
  readonly expandedMm: number | null;
  readonly fixedMm: number;
  readonly highMm: number;
  readonly hasPan: boolean;
  readonly maxLossMm: number | null;
  readonly stepMm: number;
}

/**
 * The verdict on a net drop. A smaller `expandedMm` with all else equal never turns a conclusive verdict into an inconclusive one, nor
 * a decided `aboveLimit` into an open one: each needs the interval to lie on one side, and a part of it does so too.
 */
export function evidenceOf(judged: Judged): LevelEvidence {
  const { netMm, expandedMm, highMm, maxLossMm } = judged;
  if (netMm === null || expandedMm === null) return unsettled('read-once', { code: 'read-again' });
  const lossAtLeastMm = netMm - expandedMm - highMm;
  // A level that rose, or fell less than the pan, is off by as much as it did: so much more may hide.
  const within = maxLossMm !== null && Math.abs(netMm) + expandedMm <= maxLossMm;
  if (lossAtLeastMm > 0) {
    const above = maxLossMm !== null && lossAtLeastMm > maxLossMm;
    return { conclusive: true, finding: 'loss', aboveLimit: above || within ? above : null };
  }
  if (within) return { conclusive: true, finding: 'no-loss-above-limit' };
  if (judged.hasPan && highMm > 0) return unsettled('pan-times-differ', { code: 'pan-with-marks' });
  if (!judged.hasPan && netMm > expandedMm) return unsettled('may-be-evaporation', { code: 'control-pan' });
  if (maxLossMm === null) return unsettled('no-loss-named', { code: 'name-a-loss' });
  return unsettled('too-coarse', whatIsFineEnough(judged, netMm, expandedMm, maxLossMm));
}

function unsettled(reason: Unsettled, settle: Settle): LevelEvidence {
  return { conclusive: false, reason, settle };
}

function whatIsFineEnough({ fixedMm, hasPan, stepMm }: Judged, netMm: number, expandedMm: number, maxLossMm: number): Settle {
  // With a pan a finer scale may also show a loss; without one evaporation would still explain it.
  const neededMm = Math.max(maxLossMm - Math.abs(netMm), hasPan ? netMm * ALMOST : 0);
  if (neededMm <= fixedMm) return { code: hasPan ? 'better-pan' : 'control-pan' };
  const share = Math.sqrt((neededMm ** 2 - fixedMm ** 2) / (expandedMm ** 2 - fixedMm ** 2));
  return { code: 'finer-scale', resolutionMm: share * stepMm };
}

/** A loss must be more than its uncertainty, not equal to it. */
const ALMOST = 1 - 1e-9;
