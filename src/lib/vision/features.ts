import { boxMean } from './box.ts';
import type { Rectified } from './rectify.ts';

/**
 * What a colour is told by: logarithm of brightness, of red to green, and of blue to green. Light, shadow and vignetting move the first
 * only; a cast of the lamp moves the other two by the same amount everywhere.
 */
export interface Features {
  readonly width: number;
  readonly height: number;
  readonly planes: readonly [brightness: Float32Array, redness: Float32Array, blueness: Float32Array];
}

/** Added to each channel, so that black has a logarithm that noise does not shake. */
const DARK = 0.004;

export function featureOf(red: number, green: number, blue: number): [number, number, number] {
  const brightness = 0.2126 * red + 0.7152 * green + 0.0722 * blue;
  return [Math.log(brightness + DARK), Math.log((red + DARK) / (green + DARK)), Math.log((blue + DARK) / (green + DARK))];
}

/** Features of each pixel, of light that is smoothed twice by a box of `2 reach + 1` pixels first. */
export function featuresOf(surface: Rectified, reach: number): Features {
  const { width, height } = surface;
  const smooth = (plane: Float32Array) => (reach < 1 ? plane : boxMean(boxMean(plane, width, height, reach), width, height, reach));
  const [red, green, blue] = [smooth(surface.red), smooth(surface.green), smooth(surface.blue)];
  const planes = [new Float32Array(red.length), new Float32Array(red.length), new Float32Array(red.length)] as const;
  for (let at = 0; at < red.length; at++) {
    const [r, g, b] = [red[at]! + DARK, green[at]! + DARK, blue[at]! + DARK];
    planes[0][at] = Math.log(0.2126 * r + 0.7152 * g + 0.0722 * b);
    planes[1][at] = Math.log(r / g);
    planes[2][at] = Math.log(b / g);
  }
  return { width, height, planes };
}
