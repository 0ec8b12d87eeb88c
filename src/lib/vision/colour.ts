/** Lightness and two colour axes (CIELAB, white D65). */
export type Lab = readonly [l: number, a: number, b: number];

/** CIELAB of light in the primaries of sRGB (IEC 61966-2-1; CIE 15), each 0 to 1; more than 1 is taken as it is. */
export function labOf(red: number, green: number, blue: number): Lab {
  const x = (0.4123907993 * red + 0.3575843394 * green + 0.1804807884 * blue) / 0.9504559271;
  const y = 0.2126390059 * red + 0.7151686788 * green + 0.0721923154 * blue;
  const z = (0.0193308187 * red + 0.1191947798 * green + 0.9505321522 * blue) / 1.0890577508;
  const [fx, fy, fz] = [root(x), root(y), root(z)];
  return [116 * fy - 16, 500 * (fx - fy), 200 * (fy - fz)];
}

function root(t: number): number {
  return t > 216 / 24389 ? Math.cbrt(t) : (24389 / 27) * (t / 116) + 16 / 116;
}

/**
 * Colour difference CIEDE2000 with all factors 1 (ISO/CIE 11664-6), as written out by Sharma, Wu and Dalal, "The CIEDE2000
 * color-difference formula: implementation notes", 2005.
 */
export function deltaE2000([l1, a1, b1]: Lab, [l2, a2, b2]: Lab): number {
  const meanChroma = (Math.hypot(a1, b1) + Math.hypot(a2, b2)) / 2;
  const g = 0.5 * (1 - Math.sqrt(meanChroma ** 7 / (meanChroma ** 7 + 25 ** 7)));
  const [c1, c2] = [Math.hypot((1 + g) * a1, b1), Math.hypot((1 + g) * a2, b2)];
  const [h1, h2] = [hue((1 + g) * a1, b1), hue((1 + g) * a2, b2)];
  const grey = c1 * c2 === 0;
  const turn = grey ? 0 : Math.abs(h2 - h1) <= 180 ? h2 - h1 : h2 > h1 ? h2 - h1 - 360 : h2 - h1 + 360;
  const dH = 2 * Math.sqrt(c1 * c2) * sine(turn / 2);
  const sum = h1 + h2;
  const meanHue = grey ? sum : Math.abs(h1 - h2) <= 180 ? sum / 2 : sum < 360 ? sum / 2 + 180 : sum / 2 - 180;
  const [meanL, meanC] = [(l1 + l2) / 2, (c1 + c2) / 2];
  const t = 1 - 0.17 * cosine(meanHue - 30) + 0.24 * cosine(2 * meanHue) + 0.32 * cosine(3 * meanHue + 6) - 0.2 * cosine(4 * meanHue - 63);
  const sl = 1 + (0.015 * (meanL - 50) ** 2) / Math.sqrt(20 + (meanL - 50) ** 2);
  const sc = 1 + 0.045 * meanC;
  const sh = 1 + 0.015 * meanC * t;
  const rotation = -2 * Math.sqrt(meanC ** 7 / (meanC ** 7 + 25 ** 7)) * sine(60 * Math.exp(-(((meanHue - 275) / 25) ** 2)));
  const [l, c, h] = [(l2 - l1) / sl, (c2 - c1) / sc, dH / sh];
  return Math.sqrt(l * l + c * c + h * h + rotation * c * h);
}

function hue(a: number, b: number): number {
  const degrees = (Math.atan2(b, a) * 180) / Math.PI;
  return degrees < 0 ? degrees + 360 : degrees;
}

function sine(degrees: number): number {
  return Math.sin((degrees * Math.PI) / 180);
}

function cosine(degrees: number): number {
  return Math.cos((degrees * Math.PI) / 180);
}
