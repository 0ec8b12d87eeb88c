import { fail, ok, type Result } from '../result.ts';
import { CARD } from './card.ts';
import { type Step, stepsAcross } from './edges.ts';
import { findCard } from './find-card.ts';
import {
  fitView,
  lensTermOf,
  type PlaneEdge,
  type PlaneFit,
  type Prior,
  scaleAt,
  type Seen,
  type Tapped,
  toPicture,
  type View,
  viewOfCorners,
} from './plane.ts';
import { area, isConvex } from './polygon.ts';
import { offProportion } from './proportions.ts';
import { distance, type Point, type Quad, type Raster } from './raster.ts';
import { middleOf, straightest } from './straight.ts';

/** Something flat of known size that lies on the measured surface. */
export type Reference =
  | {
      readonly kind: 'card';
      /** Outer corners of the frame, tapped. Without them the card is looked for. */
      readonly corners?: Quad | undefined;
      /** What the card's bar measures on paper, in mm. It should be 100; a printer that fits to the page shrinks it. */
      readonly barMm?: number | undefined;
    }
  | { readonly kind: 'rectangle'; readonly widthMm: number; readonly heightMm: number; readonly corners: Quad };

/** Why a reference gives no scale. */
export type ReferenceFault =
  'no-card' | 'card-cut-off' | 'not-a-rectangle' | 'blurred' | 'edges-unclear' | 'not-flat' | 'too-steep' | 'too-far';

export interface Plane extends PlaneFit {
  /** Sides of the reference, in mm. */
  readonly size: { readonly width: number; readonly height: number };
  /** Outer corners as fitted, in the picture. */
  readonly corners: Quad;
  /** How blurred its edges are, in pixels (standard deviation). */
  readonly blurPx: number;
  /** Whether its edges were found in the picture, or only its corners tapped. */
  readonly snapped: boolean;
}

/** Profiles on a side, and the part of it they keep clear of the corners. */
const PROFILES = 48;
const CLEAR = 0.06;
/** Fewer points than this on a side do not make it an edge. */
const POINTS_MIN = 12;
/** Standard deviation of a corner tapped by finger, in pixels: of the rectangle, and of the card, whose frame is then found. */
const TAP_SD_PX = 3;
const HINT_SD_PX = 7;
/** A reference smaller than this in the photo, in square pixels, is none. */
const AREA_MIN_PX = 400;
/** How far from its taps a rectangle's side is looked for, in pixels. */
const TAP_REACH_PX = 14;
const AGAIN_REACH_PX = 5;
/** Largest blur (standard deviation of an edge) at which edges still are where they seem to be. */
const BLUR_MAX_PX = 3;
const BLUR_REACH_PX = 30;
/** Deviation from straight sides (root mean square) above which paper is not flat, and the strongest lens term that is believed. */
const WAVINESS_MAX_PX = 0.3;
const K1_MAX = 0.25;
/** Sides that are off by more than about this share were exchanged, mistyped or measured on something else. */
const PROPORTION_MAX = 0.08;
/** Coarsest scale that measures. */
export const MM_PER_PX_MAX = 0.5;
/** Cosine of the steepest angle of view, 60 degrees. */
export const COSINE_MIN = 0.5;

/** Finds the reference in the picture and fits the camera's view of its plane to its edges. */
export function planeOf(picture: Raster, reference: Reference): Result<Plane, ReferenceFault> {
  const size = sizeOf(reference);
  const given = reference.corners;
  const found = given === undefined ? findCard(picture) : ok({ corners: given, marked: false });
  if (!found.ok) return found;
  const { corners, marked } = found.value;
  if (!isConvex(corners) || area(corners) < AREA_MIN_PX) return fail('not-a-rectangle');
  if (corners.some(([x, y]) => x < -2 || y < -2 || x > picture.width + 2 || y > picture.height + 2)) return fail('card-cut-off');
  if (reference.kind === 'rectangle') return fromCorners(picture, reference, size, corners);
  const asTold = fromCorners(picture, reference, size, corners);
  if (marked) return asTold;
  // No marker tells its long sides: the frame's own line, equally wide all around, does.
  const turned = fromCorners(picture, reference, size, [corners[1], corners[2], corners[3], corners[0]]);
  if (asTold.ok && turned.ok) return turned.value.wavinessPx < asTold.value.wavinessPx ? turned : asTold;
  return turned.ok ? turned : asTold;
}

function fromCorners(
  picture: Raster,
  reference: Reference,
  size: { width: number; height: number },
  corners: Quad,
): Result<Plane, ReferenceFault> {
  const onPlane: Quad = [
    [0, 0],
    [size.width, 0],
    [size.width, size.height],
    [0, size.height],
  ];
  const start = viewOfCorners(picture, corners, onPlane);
  if (start === null) return fail('not-a-rectangle');
  const sdPx = reference.kind === 'rectangle' ? TAP_SD_PX : HINT_SD_PX;
  const tapped = corners.map((point, i): Tapped => ({ point, onPlane: onPlane[i]!, sdPx }));
  const fitted = reference.kind === 'card' ? fitCard(picture, start, size, tapped) : fitRectangle(picture, start, size, tapped);
  if (!fitted.ok) return fitted;
  return judged({ ...fitted.value, size, corners: onPlane.map((corner) => toPicture(fitted.value.view, corner)) as unknown as Quad });
}

function sizeOf(reference: Reference): { width: number; height: number } {
  if (reference.kind === 'rectangle') return { width: reference.widthMm, height: reference.heightMm };
  const by = (reference.barMm ?? CARD.bar.length) / CARD.bar.length;
  return { width: CARD.frame.width * by, height: CARD.frame.height * by };
}

/** What the fit itself says against measuring by it. */
function judged(plane: Plane): Result<Plane, ReferenceFault> {
  const middle = toPicture(plane.view, [plane.size.width / 2, plane.size.height / 2]);
  const scale = scaleAt(plane.view, middle);
  if (plane.blurPx > BLUR_MAX_PX) return fail('blurred');
  // Paper that is not flat, or a lens no phone has.
  const bent = plane.wavinessPx > WAVINESS_MAX_PX || Math.abs(lensTermOf(plane.view)) > K1_MAX;
  if (offProportion(plane.view) > PROPORTION_MAX) return fail(bent ? 'not-flat' : 'not-a-rectangle');
  if (scale.cosine < COSINE_MIN) return fail('too-steep');
  if (scale.mmPerPx > MM_PER_PX_MAX) return fail('too-far');
  if (bent) return fail('not-flat');
  return ok(plane);
}

type Fitted = Result<Omit<Plane, 'size' | 'corners'>, ReferenceFault>;

/** A standard proportion says that the picture was not cropped, so that the lens's centre is about its own. */
function priorFor({ width, height }: Raster, shiftPx: number): Prior {
  const proportion = Math.max(width, height) / Math.min(width, height);
  const whole = [4 / 3, 3 / 2, 16 / 9].some((usual) => Math.abs(proportion / usual - 1) < 0.01);
  return { k1: 0.06, shiftPx, centre: whole ? 0.02 : 0.3 };
}

/** Both edges of the frame's line on all four sides. An edge shift that tone curve or ink cause moves them apart and is fitted too. */
function fitCard(picture: Raster, start: View, size: { width: number; height: number }, tapped: readonly Tapped[]): Fitted {
  const line = (CARD.frame.line * size.width) / CARD.frame.width;
  const edges: PlaneEdge[] = [
    { axis: 1, at: 0, away: -1 },
    { axis: 0, at: size.width, away: 1 },
    { axis: 1, at: size.height, away: 1 },
    { axis: 0, at: 0, away: -1 },
    { axis: 1, at: line, away: 1 },
    { axis: 0, at: size.width - line, away: -1 },
    { axis: 1, at: size.height - line, away: -1 },
    { axis: 0, at: line, away: 1 },
  ];
  const prior = priorFor(picture, 1);
  let view = start;
  let fit: PlaneFit | null = null;
  let steps: Step[] = [];
  for (const reachMm of [2.8, 2, 1.6]) {
    const found = edges.flatMap((edge) => alongEdge(picture, view, edge, size, (scale) => Math.min(reachMm / scale, 40)));
    const seen = found.flatMap(({ edge, choices }): (Seen & { step: Step })[] => {
      const step = choices[0];
      return step === undefined ? [] : [{ edge, point: step.point, step }];
    });
    steps = seen.map(({ step }) => step);
    if (edges.some((edge) => seen.filter((each) => each.edge === edge).length < POINTS_MIN))
      return fail(faultOf(picture, view, edges, size));
    fit = fitView(view, edges, seen, reachMm > 2 ? tapped : tapped.map((tap) => ({ ...tap, sdPx: 50 })), prior);
    if (fit === null) return fail('edges-unclear');
    view = fit.view;
  }
  if (fit === null || fit.kept.some((count) => count < POINTS_MIN)) return fail(faultOf(picture, view, edges, size));
  return ok({ ...fit, blurPx: middleOf(steps.map(({ blur }) => blur)), snapped: true });
}

/** Whether the edges were not found because they are blurred: then they show as wide steps in a wide view. */
function faultOf(picture: Raster, view: View, edges: readonly PlaneEdge[], size: { width: number; height: number }): ReferenceFault {
  const wide = edges.slice(0, 4).flatMap((edge) => alongEdge(picture, view, edge, size, () => BLUR_REACH_PX));
  const blurs = wide.flatMap(({ choices }) => choices.slice(0, 1).map(({ blur }) => blur));
  return blurs.length > POINTS_MIN && middleOf(blurs) > BLUR_MAX_PX ? 'blurred' : 'edges-unclear';
}

/**
 * The sides of any rectangle, each on the strongest straight edge near its taps. A side with none, or with two that could be meant, is
 * left to its tapped corners, and the interval grows accordingly.
 */
function fitRectangle(picture: Raster, start: View, size: { width: number; height: number }, tapped: readonly Tapped[]): Fitted {
  const sides: Omit<PlaneEdge, 'away'>[] = [
    { axis: 1, at: 0 },
    { axis: 0, at: size.width },
    { axis: 1, at: size.height },
    { axis: 0, at: 0 },
  ];
  const prior = priorFor(picture, 0.3);
  const edges: PlaneEdge[] = [];
  const seen: Seen[] = [];
  const blurs: number[] = [];
  for (const side of sides) {
    const profiles = alongEdge(picture, start, { ...side, away: 1 }, size, () => TAP_REACH_PX, true);
    const chosen = straightest(profiles.map(({ choices }) => choices));
    if (chosen === null) continue;
    // A profile runs from the reference outward.
    const outward = side.at === 0 ? -1 : 1;
    const edge: PlaneEdge = { ...side, away: (chosen[0]!.rise > 0 ? outward : -outward) as 1 | -1 };
    edges.push(edge);
    seen.push(...chosen.map(({ point }) => ({ edge, point })));
    blurs.push(...chosen.map(({ blur }) => blur));
  }
  const first = fitView(start, edges, seen, tapped, prior);
  if (first === null) return fail('edges-unclear');
  // Once more, closer: now the lens's curve is known.
  const nearer = edges.flatMap((edge) => alongEdge(picture, first.view, edge, size, () => AGAIN_REACH_PX));
  const again = nearer.flatMap(({ edge, choices }): Seen[] => choices.slice(0, 1).map(({ point }) => ({ edge, point })));
  const fit = fitView(first.view, edges, again, tapped, prior);
  if (fit === null) return fail('edges-unclear');
  return ok({ ...fit, blurPx: middleOf(blurs), snapped: edges.length === 4 });
}

interface Profile {
  readonly edge: PlaneEdge;
  /** Steps of the wanted sign, strongest first; with `both`, of either sign. */
  readonly choices: readonly Step[];
}

/** Profiles across an edge, from the reference outward, where the view expects it in the picture. */
function alongEdge(
  picture: Raster,
  view: View,
  edge: PlaneEdge,
  size: { width: number; height: number },
  reachFor: (mmPerPx: number) => number,
  both = false,
): Profile[] {
  const length = edge.axis === 1 ? size.width : size.height;
  const breadth = edge.axis === 1 ? size.height : size.width;
  const outward = edge.at < breadth / 2 ? -1 : 1;
  const place = (t: number, depth: number): Point => (edge.axis === 1 ? [t * length, depth] : [depth, t * length]);
  return Array.from({ length: PROFILES }, (_, i): Profile => {
    const t = CLEAR + ((1 - 2 * CLEAR) * i) / (PROFILES - 1);
    const middle = toPicture(view, place(t, edge.at));
    const [before, after] = [toPicture(view, place(t - 0.01, edge.at)), toPicture(view, place(t + 0.01, edge.at))];
    const run = distance(before, after);
    const normal: Point = [-(after[1] - before[1]) / run, (after[0] - before[0]) / run];
    const beyond = toPicture(view, place(t, edge.at + outward));
    const ahead = (beyond[0] - middle[0]) * normal[0] + (beyond[1] - middle[1]) * normal[1];
    const along: Point = ahead > 0 ? normal : [-normal[0], -normal[1]];
    const reach = reachFor(1 / Math.abs(ahead));
    const inside = middle[0] > reach && middle[1] > reach && middle[0] < picture.width - reach && middle[1] < picture.height - reach;
    if (!inside || !(reach > 1)) return { edge, choices: [] };
    const sign = edge.away * outward;
    const steps = stepsAcross(picture, middle, along, Math.max(4, reach));
    return { edge, choices: both ? steps : steps.filter(({ rise }) => rise * sign > 0) };
  });
}
