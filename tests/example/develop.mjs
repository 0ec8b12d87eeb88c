import sharp from 'sharp';
import { hash, noise } from './noise.mjs';

/**
 * What a phone does between light and file: lens (blur away from the focus, darker corners), exposure and white, tone curve,
 * the sensor's noise, a little sharpening. Gives 8-bit pixels.
 */
export function develop({ rgb, depth, width, height }, { focus, blur = 0.5, exposure = 1, white = [1, 1, 1], grain = 1, seed }) {
  const light = outOfFocus(rgb, depth, width, height, focus, blur);
  const pixels = Buffer.alloc(width * height * 3);
  const scale = width / 1280;
  for (let y = 0; y < height; y++) {
    for (let x = 0; x < width; x++) {
      const i = (y * width + x) * 3;
      const dx = (x / width - 0.5) * 2;
      const dy = (y / height - 0.5) * 1.5;
      const corner = 1 - (0.2 * (dx * dx + dy * dy) ** 1.2) / 2;
      // Noise of the sensor: fine and grey, and blotches of colour in the dark.
      const lum = (light[i] + light[i + 1] + light[i + 2]) / 3;
      const fine = (hash(x, y, seed) + hash(x, y, seed + 1) + hash(x, y, seed + 2) - 1.5) * 0.034 * grain;
      const blotch = noise(x / (5 * scale), y / (5 * scale), seed + 3) * 0.007 * grain;
      for (let c = 0; c < 3; c++) {
        const value = light[i + c] * exposure * white[c] * corner;
        const own = (hash(x, y, seed + 7 + c) - 0.5) * 0.022 * grain;
        const noisy = tone(value) + (fine + own + blotch * (c - 1)) * (0.55 + 0.45 / (1 + 6 * lum));
        pixels[i + c] = Math.min(255, Math.max(0, Math.round(noisy * 255)));
      }
    }
  }
  return pixels;
}

/** Linear light to a phone's rendering of it: shoulder in the lights, a little depth in the shadows, then sRGB. */
function tone(x) {
  const v = Math.max(0, x);
  const curved = (v * (2.51 * v + 0.09)) / (v * (2.43 * v + 0.7) + 0.14);
  return curved <= 0.0031308 ? curved * 12.92 : 1.055 * curved ** (1 / 2.4) - 0.055;
}

const TAPS = Array.from({ length: 22 }, (_, i) => {
  const r = Math.sqrt((i + 0.5) / 22);
  const a = i * 2.39996;
  return [r * Math.cos(a), r * Math.sin(a)];
});

/** Gathers over the circle each distance is blurred to. `blur` is that circle's radius in pixels at 1280 for what lies twice as far as the focus. */
function outOfFocus(rgb, depth, width, height, focus, blur) {
  const out = new Float32Array(rgb.length);
  const scale = width / 1280;
  const circle = (t) => Math.min(9, 0.42 + blur * 2 * Math.abs(1 - focus / t)) * scale;
  for (let y = 0; y < height; y++) {
    for (let x = 0; x < width; x++) {
      const i = y * width + x;
      const r = circle(depth[i]);
      let total = 0;
      let a = 0;
      let b = 0;
      let c = 0;
      for (const [tx, ty] of TAPS) {
        const sx = Math.min(width - 1, Math.max(0, Math.round(x + tx * r)));
        const sy = Math.min(height - 1, Math.max(0, Math.round(y + ty * r)));
        const j = sy * width + sx;
        // A sharp thing does not bleed into a blurred one behind it.
        const weight = depth[j] < depth[i] * 0.93 ? Math.min(1, circle(depth[j]) / r) + 0.01 : 1;
        a += rgb[j * 3] * weight;
        b += rgb[j * 3 + 1] * weight;
        c += rgb[j * 3 + 2] * weight;
        total += weight;
      }
      out[i * 3] = a / total;
      out[i * 3 + 1] = b / total;
      out[i * 3 + 2] = c / total;
    }
  }
  return out;
}

/**
 * The best JPEG of at most `most` bytes; `camera` is what the phone's own camera app wrote into a picture that came into the book
 * as a file.
 */
export async function jpeg(pixels, width, height, most, camera) {
  const raw = { raw: { width, height, channels: 3 } };
  let best = null;
  for (let low = 40, high = 90; low <= high;) {
    const quality = Math.floor((low + high) / 2);
    let picture = sharp(pixels, raw).sharpen({ sigma: 0.7, m1: 0.5, m2: 1.2 });
    if (camera !== undefined) {
      const { taken, orientation } = camera;
      picture = picture.withExif({ IFD2: { DateTimeOriginal: taken } }).withMetadata({ orientation });
    }
    const bytes = await picture.jpeg({ quality, mozjpeg: true }).toBuffer();
    if (bytes.length <= most) best = bytes;
    if (bytes.length <= most) low = quality + 1;
    else high = quality - 1;
  }
  if (best === null) throw new Error(`no quality gives ${most} bytes`);
  return best;
}
