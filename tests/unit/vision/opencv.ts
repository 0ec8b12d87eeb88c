import * as opencv from 'opencv-wasm';

/** A matrix of OpenCV, as far as the tests read it. */
export interface Mat {
  readonly data: Uint8Array;
  readonly data32F: Float32Array;
  readonly data64F: Float64Array;
  intAt(row: number, column: number): number;
  doubleAt(row: number, column: number): number;
  delete(): void;
}

/** What the tests call; the package's own types are too loose to be checked. */
interface OpenCv {
  readonly Mat: new () => Mat;
  readonly MatVector: new () => { size(): number; get(at: number): Mat; delete(): void };
  readonly Size: new (width: number, height: number) => object;
  readonly Scalar: new () => object;
  readonly ADAPTIVE_THRESH_MEAN_C: number;
  readonly BORDER_REPLICATE: number;
  readonly CC_STAT_AREA: number;
  readonly CHAIN_APPROX_NONE: number;
  readonly COLOR_RGB2Lab: number;
  readonly COLOR_RGBA2GRAY: number;
  readonly CV_32FC1: number;
  readonly CV_32FC2: number;
  readonly CV_32FC3: number;
  readonly CV_32S: number;
  readonly CV_8UC1: number;
  readonly CV_8UC4: number;
  readonly INTER_AREA: number;
  readonly INTER_LINEAR: number;
  readonly RETR_LIST: number;
  readonly THRESH_BINARY: number;
  readonly THRESH_BINARY_INV: number;
  readonly THRESH_OTSU: number;
  matFromArray(rows: number, columns: number, type: number, values: ArrayLike<number>): Mat;
  getPerspectiveTransform(from: Mat, to: Mat): Mat;
  findHomography(from: Mat, to: Mat): Mat;
  warpPerspective(from: Mat, to: Mat, map: Mat, size: object, flags: number, border: number, value: object): void;
  threshold(from: Mat, to: Mat, level: number, most: number, type: number): number;
  connectedComponentsWithStats(from: Mat, labels: Mat, stats: Mat, middles: Mat, neighbours: number, type: number): number;
  cvtColor(from: Mat, to: Mat, code: number): void;
  resize(from: Mat, to: Mat, size: object, fx: number, fy: number, flags: number): void;
  adaptiveThreshold(from: Mat, to: Mat, most: number, method: number, type: number, side: number, less: number): void;
  findContours(from: Mat, to: object, order: Mat, mode: number, method: number): void;
  convexHull(from: Mat, to: Mat): void;
  approxPolyDP(from: Mat, to: Mat, off: number, closed: boolean): void;
  contourArea(contour: Mat): number;
  blur(from: Mat, to: Mat, size: object): void;
}

/** OpenCV 4.3 compiled to WebAssembly: the independent reference. */
export const cv = (opencv as unknown as { readonly cv: OpenCv }).cv;
