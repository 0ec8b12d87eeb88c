import { ok } from '../result.ts';
import { boundsUncertainty, COVERAGE, stepUncertainty } from './_reading-error.ts';
import { evidenceOf, type LevelEvidence } from './flood-evidence.ts';
import { DROP_MM, STEP_MM } from './flood.ts';
import {
  choiceFault,
  firstFault,
  flagFault,
  listFault,
  missingFault,
  MOMENT_MS,
  numberFault,
  textFault,
  type Computed,
  type InputFault,
  type Span,
} from './input.ts';

/** Water over any fixed zero, more is higher, read at a moment on a scale of steps `resolutionMm`. */
export interface Level {
  readonly atMs: number;
  readonly levelMm: number;
  readonly resolutionMm: number;
}

/** A level read at a named place of the basin. */
export interface MarkLevel extends Level {
  readonly mark: string;
}

/**
 * What stands beside the levels. `pan`: readings of a control pan whose own loss may differ from the basin's by up to `unlikeMm`
 * either way. `at-most`: no pan, and evaporation no more than `highMm` over the test by formulas or a cover.
 */
export type Beside =
  | { readonly kind: 'pan'; readonly readings: readonly Level[]; readonly unlikeMm: number }
  | { readonly kind: 'at-most'; readonly highMm: number };

export interface NetDrop {
  /** Each mark's own drop with its expanded uncertainty, in the order of their names. `counted` needs both ends of the test. */
  readonly marks: readonly { mark: string; dropMm: number; expandedMm: number; counted: boolean }[];
  readonly elapsedMs: number;
  /** Mean of the counted marks, and its spread between them; null where no mark was read at both ends. */
  readonly dropMm: number | null;
  readonly spreadMm: number;
  /** The pan's over the same time; null without a pan that was read at both ends too. */
  readonly panDropMm: number | null;
  /** Drop less the pan's; without a pan the drop as it is. */
  readonly netMm: number | null;
  readonly expandedMm: number | null;
  /** A loss up to here may hide in the readings, from a level that rose too. */
  readonly hiddenUpToMm: number | null;
  readonly evidence: LevelEvidence;
}

const LEVEL_MM: Span = [-10_000, 10_000];
/** How far the ends of two series may lie apart and still be of one test, the longer of both: our own judgement. */
const END_SHARE = 0.05;
const END_MS = 180_000;

/**
 * Net drop of a flood test with expanded uncertainty (2 u), and what the levels can show. First and last reading of each mark count.
 * Marks share one scale and one water, so their reading errors are not averaged away, and their spread adds to u. Evaporation without a
 * pan is never subtracted: it only widens what a fall may be. `maxLossMm` is the loss that matters over this test, from a contract or
 * the crew; null when nobody named one. `disturbed`: water was added or let out in between.
 * Errors: no levels, a value that is no number or out of range, two readings of one mark or of the pan at one moment.
 * Source: JCGM 100:2008 (GUM), F.2.2.1, 4.3.7, 5.1.2, 6.3.3; the verdicts are our own.
 */
export function netDrop(test: {
  readonly levels: readonly MarkLevel[];
  readonly beside: Beside;
  readonly disturbed: boolean;
  readonly maxLossMm: number | null;
}): Computed<NetDrop> {
  const { levels, beside, disturbed, maxLossMm } = test;
  const fault = firstFault([
    ...levelFaults('levels', levels, 1),
    ...besideFaults(beside),
    flagFault('disturbed', disturbed),
    maxLossMm === null ? null : numberFault('maxLossMm', maxLossMm, DROP_MM),
  ]);
  if (fault) return fault;
  const ends = { fromMs: Math.min(...levels.map(({ atMs }) => atMs)), toMs: Math.max(...levels.map(({ atMs }) => atMs)) };
  const marks = [...new Set(levels.map(({ mark }) => mark))].sort().map((mark) => ({
    mark,
    ...fall(
      levels.filter((level) => level.mark === mark),
      ends,
    ),
  }));
  const counted = marks.filter((mark) => mark.counted);
  const pan = beside.kind === 'pan' ? { ...fall(beside.readings, ends), unlikeMm: beside.unlikeMm } : null;
  const numbers = combine(counted, pan?.counted ? pan : null);
  const steps = [...levels, ...(beside.kind === 'pan' ? beside.readings : [])].map(({ resolutionMm }) => resolutionMm);
  const highMm = beside.kind === 'at-most' ? beside.highMm : pan?.counted ? 0 : Infinity;
  const { fixedMm, ...shown } = numbers;
  return ok({
    marks: marks.map(({ mark, dropMm, uMm, counted: both }) => ({ mark, dropMm, expandedMm: COVERAGE * uMm, counted: both })),
    elapsedMs: ends.toMs - ends.fromMs,
    ...shown,
    evidence: disturbed
      ? { conclusive: false, reason: 'disturbed', settle: { code: 'start-anew' } }
      : evidenceOf({ ...shown, fixedMm, highMm, hasPan: pan !== null, maxLossMm, stepMm: Math.max(...steps) }),
  });
}

interface Fall {
  readonly dropMm: number;
  readonly uMm: number;
  readonly counted: boolean;
}

/** `fixedMm`: what a scale without steps would leave of the expanded uncertainty. */
type Numbers = Omit<NetDrop, 'marks' | 'elapsedMs' | 'evidence'> & { readonly fixedMm: number };

function fall(own: readonly Level[], { fromMs, toMs }: { fromMs: number; toMs: number }): Fall {
  const first = own.reduce((a, b) => (b.atMs < a.atMs ? b : a));
  const last = own.reduce((a, b) => (b.atMs > a.atMs ? b : a));
  const slackMs = Math.max(END_MS, END_SHARE * (toMs - fromMs));
  return {
    dropMm: first.levelMm - last.levelMm,
    uMm: Math.hypot(stepUncertainty(first.resolutionMm), stepUncertainty(last.resolutionMm)),
    counted: first !== last && Math.abs(first.atMs - fromMs) <= slackMs && Math.abs(last.atMs - toMs) <= slackMs,
  };
}

function combine(counted: readonly Fall[], pan: (Fall & { unlikeMm: number }) | null): Numbers {
  const panDropMm = pan === null ? null : pan.dropMm;
  if (counted.length === 0) {
    return { dropMm: null, spreadMm: 0, panDropMm, netMm: null, expandedMm: null, hiddenUpToMm: null, fixedMm: 0 };
  }
  const drops = counted.map(({ dropMm }) => dropMm);
  const dropMm = mean(drops);
  const spreadMm = Math.max(...drops) - Math.min(...drops);
  const fixedMm = COVERAGE * Math.hypot(boundsUncertainty(spreadMm / 2), boundsUncertainty(pan?.unlikeMm ?? 0));
  const expandedMm = Math.hypot(fixedMm, COVERAGE * mean(counted.map(({ uMm }) => uMm)), COVERAGE * (pan?.uMm ?? 0));
  const netMm = dropMm - (panDropMm ?? 0);
  return { dropMm, spreadMm, panDropMm, netMm, expandedMm, hiddenUpToMm: Math.abs(netMm) + expandedMm, fixedMm };
}

function mean(values: readonly number[]): number {
  return values.reduce((sum, value) => sum + value, 0) / values.length;
}

function besideFaults(beside: Beside): (InputFault | null)[] {
  const missing = missingFault('beside', beside);
  if (missing) return [missing];
  if (beside.kind === 'at-most') return [numberFault('beside.highMm', beside.highMm, DROP_MM)];
  return [
    choiceFault('beside.kind', beside.kind, ['pan']),
    numberFault('beside.unlikeMm', beside.unlikeMm, DROP_MM),
    ...levelFaults('beside.readings', beside.readings, 1),
  ];
}

/** The faults of a list of at least `least` levels; two of one place at one moment contradict each other or say nothing. */
export function levelFaults(field: string, levels: readonly (Level & { readonly mark?: string })[], least: number): (InputFault | null)[] {
  const list = listFault(field, levels, least);
  if (list) return [list];
  const seen = new Set<string>();
  return levels.flatMap(({ mark = '', atMs, levelMm, resolutionMm }, at) => {
    const faults = [
      textFault(`${field}[${at}].mark`, mark),
      numberFault(`${field}[${at}].atMs`, atMs, MOMENT_MS),
      numberFault(`${field}[${at}].levelMm`, levelMm, LEVEL_MM),
      numberFault(`${field}[${at}].resolutionMm`, resolutionMm, STEP_MM),
    ];
    if (faults.some((fault) => fault !== null)) return faults;
    const moment = `${atMs} ${mark}`;
    const twice = seen.has(moment);
    seen.add(moment);
    return twice ? [{ code: 'twice', field: `${field}[${at}].atMs`, bound: null }] : [];
  });
}
