import sharp from 'sharp';
import { boxMean } from '#lib/vision/box.ts';
import { connectedRuns, type Mask } from '#lib/vision/components.ts';
import { findCard } from '#lib/vision/find-card.ts';
import { fitHomography } from '#lib/vision/homography.ts';
import { otsu } from '#lib/vision/otsu.ts';
import type { Point, Raster } from '#lib/vision/raster.ts';
import { rectify } from '#lib/vision/rectify.ts';
import { decode } from '../camera/develop.ts';
import { lapPicture } from '../camera/pictures.ts';
import { random } from '../sim/random.ts';
import { cv, type Mat } from '../unit/vision/opencv.ts';
import type { BenchRow } from './keep.bench.ts';

const WIDTH = 4032;
const TURNS = 9;
const WARM_UPS = 14;
/** A surface straight on, of two million pixels, each the mean of two by two places. */
const SIDE = { width: 1600, height: 1250 } as const;
const SMOOTH_PX = 20;
const AIM = 'at most 1.5';

/** The steps that look at every pixel of a photo of 12 million, or of its straightened surface, beside the same in OpenCV's JavaScript build. */
export async function run(): Promise<BenchRow[]> {
  const { jpeg } = await lapPicture();
  const picture = await decode(await sharp(jpeg).resize(WIDTH).jpeg({ quality: 90 }).toBuffer());
  const photo = cv.matFromArray(picture.height, picture.width, cv.CV_8UC4, picture.rgba);
  const chance = random(3);
  const pixels = SIDE.width * SIDE.height;
  const spots = Uint8Array.from({ length: pixels }, (_, at) => (Math.sin(at / 90) * Math.sin(at / SIDE.width / 70) > 0.2 ? 1 : 0));
  const greys = Uint8Array.from({ length: pixels }, () => 90 + 60 * chance() + (chance() < 0.4 ? 80 : 0));
  const light = Float32Array.from(greys, (value) => value / 255);
  const cvSpots = cv.matFromArray(SIDE.height, SIDE.width, cv.CV_8UC1, spots);
  const cvGreys = cv.matFromArray(SIDE.height, SIDE.width, cv.CV_8UC1, greys);
  const cvLight = cv.matFromArray(SIDE.height, SIDE.width, cv.CV_32FC1, light);

  const rows = [
    row(
      'photo: frames of a card sought in 12 MP',
      () => findCard(picture),
      () => framesByOpenCv(photo, picture),
    ),
    row(
      'photo: surface straightened, 2 MP of 12',
      () => rectify(picture, straight(picture), { xMm: 0, yMm: 0, widthMm: SIDE.width, heightMm: SIDE.height }, 1, 2),
      () => straightByOpenCv(photo, picture),
    ),
    row(
      'photo: mean around each of 2 MP',
      () => boxMean(light, SIDE.width, SIDE.height, SMOOTH_PX),
      () => withMats((out) => cv.blur(cvLight, out, new cv.Size(2 * SMOOTH_PX + 1, 2 * SMOOTH_PX + 1))),
    ),
    row(
      'photo: threshold of 2 MP by Otsu',
      () => {
        const counts = new Uint32Array(256);
        for (let at = 0; at < pixels; at++) counts[greys[at]!]!++;
        return otsu(counts);
      },
      () => withMats((out) => cv.threshold(cvGreys, out, 0, 255, cv.THRESH_BINARY + cv.THRESH_OTSU)),
    ),
    row(
      'photo: spots of 2 MP told apart',
      () => areasAndMiddles({ ...SIDE, data: spots }),
      () => withMats((labels, stats, middles) => cv.connectedComponentsWithStats(cvSpots, labels, stats, middles, 8, cv.CV_32S)),
    ),
  ];
  for (const mat of [photo, cvSpots, cvGreys, cvLight]) mat.delete();
  return rows;
}

/** Time of the processor, both in turn: what else the machine does counts for neither. */
function row(name: string, ours: () => unknown, theirs: () => unknown): BenchRow {
  const took = (work: () => unknown) => {
    const from = process.cpuUsage();
    work();
    const { user, system } = process.cpuUsage(from);
    return (user + system) / 1000;
  };
  // Until both are compiled as well as they will be.
  for (let turn = 0; turn < WARM_UPS; turn++) {
    ours();
    theirs();
  }
  const turns = Array.from({ length: TURNS }, () => ({ ours: took(ours), ref: took(theirs) }));
  const sorted = (values: number[]) => values.sort((a, b) => a - b);
  const middle = (values: number[]) => sorted(values)[TURNS >> 1]!;
  const ratios = sorted(turns.map((turn) => turn.ours / turn.ref));
  const [ref, own] = [middle(turns.map((turn) => turn.ref)), middle(turns.map((turn) => turn.ours))];
  return {
    name,
    ref: Number(ref.toFixed(1)),
    ours: Number(own.toFixed(1)),
    unit: 'ms',
    ratio: Number((own / ref).toFixed(2)),
    spread: `${ratios[TURNS >> 2]!.toFixed(2)}-${ratios[TURNS - 1 - (TURNS >> 2)]!.toFixed(2)}`,
    aim: AIM,
  };
}

function withMats<T>(work: (a: Mat, b: Mat, c: Mat) => T): T {
  const mats = [new cv.Mat(), new cv.Mat(), new cv.Mat()] as const;
  const result = work(...mats);
  for (const mat of mats) mat.delete();
  return result;
}

/** Of each spot the area and the sums of where it lies; OpenCV makes a picture of their numbers and boxes around them too. */
function areasAndMiddles(mask: Mask): Float64Array[] {
  const { count, starts, firsts } = connectedRuns(mask, 8);
  const [areas, xs, ys] = [new Float64Array(count), new Float64Array(count), new Float64Array(count)];
  for (let run = 0; run < count; run++) {
    const [from, to, spot] = [starts[run]!, starts[run + 1]!, firsts[run]!];
    if (mask.data[from] === 0) continue;
    const y = Math.floor(from / mask.width);
    areas[spot]! += to - from;
    xs[spot]! += ((to - from) * (from + to - 1)) / 2 - (to - from) * y * mask.width;
    ys[spot]! += (to - from) * y;
  }
  return [areas, xs, ys];
}

const COPY_PX = 1500;

/** Grey, smaller, darker than around, and every outline of dark and of bright reduced to a hull of four corners: what comes before the markers. */
function framesByOpenCv(photo: Mat, { width, height }: Raster): number {
  return withMats((grey, small, dark) => {
    const by = Math.ceil(Math.max(width, height) / COPY_PX);
    cv.cvtColor(photo, grey, cv.COLOR_RGBA2GRAY);
    cv.resize(grey, small, new cv.Size(Math.floor(width / by), Math.floor(height / by)), 0, 0, cv.INTER_AREA);
    let frames = 0;
    for (const kind of [cv.THRESH_BINARY_INV, cv.THRESH_BINARY]) {
      cv.adaptiveThreshold(small, dark, 255, cv.ADAPTIVE_THRESH_MEAN_C, kind, 61, 20);
      const [outlines, order] = [new cv.MatVector(), new cv.Mat()];
      cv.findContours(dark, outlines, order, cv.RETR_LIST, cv.CHAIN_APPROX_NONE);
      for (let i = 0; i < outlines.size(); i++) {
        const outline = outlines.get(i);
        if (cv.contourArea(outline) > 1300) {
          withMats((hull, four) => {
            cv.convexHull(outline, hull);
            cv.approxPolyDP(hull, four, 12, true);
            frames++;
          });
        }
        outline.delete();
      }
      outlines.delete();
      order.delete();
    }
    return frames;
  });
}

const quadOf = ({ width, height }: Raster): Point[] => [
  [0.2 * width, 0.15 * height],
  [0.8 * width, 0.2 * height],
  [0.78 * width, 0.85 * height],
  [0.18 * width, 0.8 * height],
];
const sidesOf = (by: number): Point[] => [
  [0, 0],
  [by * SIDE.width, 0],
  [by * SIDE.width, by * SIDE.height],
  [0, by * SIDE.height],
];

const straight = (picture: Raster) => fitHomography(sidesOf(1), quadOf(picture))!;

/** At twice the size, then the mean of two by two. */
function straightByOpenCv(photo: Mat, picture: Raster): void {
  withMats((turn, large, small) => {
    const matOf = (points: readonly Point[]) => cv.matFromArray(4, 1, cv.CV_32FC2, points.flat());
    const [from, to] = [matOf(quadOf(picture)), matOf(sidesOf(2))];
    turn = cv.getPerspectiveTransform(from, to);
    const size = new cv.Size(2 * SIDE.width, 2 * SIDE.height);
    cv.warpPerspective(photo, large, turn, size, cv.INTER_LINEAR, cv.BORDER_REPLICATE, new cv.Scalar());
    cv.resize(large, small, new cv.Size(SIDE.width, SIDE.height), 0, 0, cv.INTER_AREA);
    for (const mat of [from, to]) mat.delete();
  });
}
