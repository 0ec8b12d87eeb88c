import { parseInches } from '../measure/inch.ts';
import { lengthNm, typedDecimal } from '../measure/quantity.ts';
import type { Draft } from '../record/kinds.ts';
import type { Miss, PhotoArea, PhotoLength } from '../record/kinds/photo.ts';
import type { Measure, Quantity } from '../record/kinds/reading.ts';
import type { Step } from '../record/kinds/setup.ts';
import { MEASURES_OF_STEP } from './systems.ts';

/** Lengths in one plane, which a photo with the scale card can show. */
const IN_A_PLANE: readonly Measure[] = ['overlap', 'band-lap', 'onto-band', 'upturn', 'curb-height', 'distance'];
const LAPS: readonly Measure[] = ['overlap', 'band-lap', 'onto-band'];

/** What can be measured in a photo of a step, its own measures first; without one, every lap. */
export function measuresInPhoto(step: Step | null): readonly Measure[] {
  const own = step === null ? LAPS : MEASURES_OF_STEP[step];
  return [...own.filter((what) => what !== 'distance' && IN_A_PLANE.includes(what)), 'distance'];
}

export function isLapMeasure(what: Measure): boolean {
  return LAPS.includes(what);
}

type Point = readonly [number, number];
type Corners = readonly [Point, Point, Point, Point];

/** A photo that is measured in: its entry, its original, and its upright size in pixels. */
export interface PhotoOf {
  readonly shot: string;
  readonly run: string | null;
  readonly surface: string | null;
  readonly sha256: string;
  readonly width: number;
  readonly height: number;
  /** Version of the method, and the person who takes the value over. */
  readonly method: string;
  readonly confirmed: string;
}

/** Taps are kept, and measured, to a tenth of a pixel: what is kept gives the same figure again. */
export function tapAt([x, y]: Point): Point {
  return [Math.round(x * 10) / 10, Math.round(y * 10) / 10];
}

const SIDE_MAX_MM = 20_000;

/**
 * The side of an area as a tape says it, in mm to a hundredth: decimals, or in inches a fraction too (`11 1/2`, `11½"`). Null for none, or for one
 * that cannot be meant.
 */
export function sideMm(typed: string, units: 'in' | 'mm'): string | null {
  const value = units === 'in' ? parseInches(typed) : typedDecimal(typed);
  const length = value === null ? null : lengthNm(value, units);
  if (length?.ok !== true || length.value <= 0 || length.value > SIDE_MAX_MM * 1e6) return null;
  return String(Math.round(length.value / 1e4) / 100);
}

const MM_IN = 25.4;

interface LengthFound {
  readonly lengthMm: number;
  readonly wideLowMm: number;
  readonly wideHighMm: number;
}

/** A length as it is said in the job's unit, to 0.1 mm or 0.01 in. Its interval is the one that also holds for a tipped card, rounded outward. */
export function lengthSaid(
  { lengthMm, wideLowMm, wideHighMm }: LengthFound,
  units: 'in' | 'mm',
): { said: Quantity; low: string; high: string } {
  const [by, digits] = units === 'in' ? [MM_IN, 2] : [1, 1];
  const step = 10 ** -digits;
  const whole = (mm: number, round: (value: number) => number) => (round(mm / by / step) * step).toFixed(digits);
  const value = whole(lengthMm, Math.round);
  // A value on the edge of its interval must not round out of it; a hair inside a step is not pushed over it.
  const [low, high] = [whole(wideLowMm, (x) => Math.floor(x + 1e-9)), whole(wideHighMm, (x) => Math.ceil(x - 1e-9))];
  return { said: { text: value, value, unit: units, resolution: step.toFixed(digits) }, low, high };
}

export interface LengthInPhoto {
  readonly what: Measure;
  readonly lap: 'both-edges' | 'lap-line' | null;
  readonly from: Point;
  readonly to: Point;
  readonly reference:
    | { readonly kind: 'card'; readonly barMm: string; readonly tapped: Corners | null }
    | { readonly kind: 'rectangle'; readonly widthMm: string; readonly heightMm: string; readonly tapped: Corners };
  readonly found: Corners;
  readonly mmPerPx: number;
  readonly length: LengthFound & { readonly planeShown: boolean };
}

/** The reading of a length in a photo, taken over by a person. */
export function lengthDraft(of: PhotoOf, measured: LengthInPhoto, units: 'in' | 'mm'): Draft & { kind: 'reading' } {
  const { said, low, high } = lengthSaid(measured.length, units);
  const { reference } = measured;
  const photo: PhotoLength = {
    ...sourceOf(of, measured.mmPerPx),
    reference:
      reference.kind === 'card'
        ? {
            kind: 'card',
            barMm: reference.barMm,
            ...(reference.tapped === null ? {} : { tapped: corners(reference.tapped) }),
            found: corners(measured.found),
          }
        : { ...reference, tapped: corners(reference.tapped), found: corners(measured.found) },
    from: point(measured.from),
    to: point(measured.to),
    low,
    high,
    ...(measured.length.planeShown ? { plane: 'edges' } : {}),
  };
  return {
    kind: 'reading',
    ...(of.run === null ? {} : { run: of.run }),
    refs: [of.shot],
    data: {
      what: measured.what,
      surface: of.surface,
      said,
      how: 'photo',
      shot: of.shot,
      photo,
      ...(measured.lap === null ? {} : { lap: measured.lap }),
      confirmed: of.confirmed,
    },
  };
}

/** An area marked by its corners, its sides in mm. */
export interface AreaInPhoto {
  readonly corners: Corners;
  readonly widthMm: string;
  readonly heightMm: string;
  readonly mmPerPx: number;
}

export interface CoverageInPhoto {
  readonly film: readonly Point[];
  readonly bare: readonly Point[];
  readonly coveredShare: number;
  readonly low: number;
  readonly high: number;
  readonly unknownShare: number;
  readonly smallestFoundMm: number;
  readonly misses: readonly Miss[];
}

/** The coverage of a coat in a photo, taken over by a person. `before`: the entry of the same area before it was mended. */
export function coverageDraft(of: PhotoOf, area: AreaInPhoto, found: CoverageInPhoto, coat: number | null, before: string | null): Draft {
  return {
    kind: 'coverage',
    ...(of.run === null ? {} : { run: of.run }),
    refs: [of.shot, ...(before === null ? [] : [before])],
    data: {
      surface: of.surface,
      ...(coat === null ? {} : { coat }),
      shot: of.shot,
      photo: areaOf(of, area),
      film: found.film.map(point),
      bare: found.bare.map(point),
      covered: percent(found.coveredShare, Math.round),
      low: percent(found.low, Math.floor),
      high: percent(found.high, Math.ceil),
      unknown: percent(found.unknownShare, Math.ceil),
      smallest: found.smallestFoundMm.toFixed(1),
      misses: [...found.misses],
      ...(before === null ? {} : { before }),
      confirmed: of.confirmed,
    },
  };
}

/** As many as an entry holds. */
export const MISSES_MAX = 500;

/** A miss that was found, as an entry keeps it. */
export function missOf(spot: { xMm: number; yMm: number; diameterMm: number; kind: Miss['kind'] }): Miss {
  return { x: spot.xMm.toFixed(1), y: spot.yMm.toFixed(1), diameter: spot.diameterMm.toFixed(1), kind: spot.kind };
}

export interface TransferInPhoto {
  readonly mortar: Point;
  readonly sheet: Point;
  readonly share: number;
  readonly low: number;
  readonly high: number;
  readonly worst: { readonly share: number; readonly xMm: number; readonly yMm: number } | null;
}

/** The mortar on a lifted sheet in a photo, taken over by a person. */
export function transferDraft(of: PhotoOf, area: AreaInPhoto, found: TransferInPhoto): Draft {
  const { worst } = found;
  return {
    kind: 'transfer',
    ...(of.run === null ? {} : { run: of.run }),
    refs: [of.shot],
    data: {
      surface: of.surface,
      shot: of.shot,
      photo: areaOf(of, area),
      mortar: point(found.mortar),
      sheet: point(found.sheet),
      share: percent(found.share, Math.round),
      low: percent(found.low, Math.floor),
      high: percent(found.high, Math.ceil),
      worst: worst === null ? null : { share: percent(worst.share, Math.round), x: worst.xMm.toFixed(0), y: worst.yMm.toFixed(0) },
      confirmed: of.confirmed,
    },
  };
}

function areaOf(of: PhotoOf, area: AreaInPhoto): PhotoArea {
  return { ...sourceOf(of, area.mmPerPx), corners: corners(area.corners), widthMm: area.widthMm, heightMm: area.heightMm };
}

function sourceOf({ sha256, width, height, method }: PhotoOf, mmPerPx: number) {
  return { sha256, width, height, method, mmPerPx: mmPerPx.toFixed(4) };
}

/** In per cent to a tenth, within 0 to 100. */
export function percent(share: number, round: (value: number) => number): string {
  return (Math.min(1000, Math.max(0, round(share * 1000))) / 10).toFixed(1);
}

function point([x, y]: Point): [string, string] {
  return [decimal(x), decimal(y)];
}

function corners([a, b, c, d]: Corners): PhotoArea['corners'] {
  return [point(a), point(b), point(c), point(d)];
}

/** To a hundredth of a pixel, without idle zeros. */
function decimal(value: number): string {
  return String(Math.round(value * 100) / 100);
}
