import sharp from 'sharp';

/** Graduations and numerals, drawn as SVG with strokes of our own (no font of any machine) and kept as rasters of ink. */

const DIGITS = {
  0: 'M2 4Q2 1 5 1Q8 1 8 4V10Q8 13 5 13Q2 13 2 10Z',
  1: 'M3 3.6L5.6 1V13',
  2: 'M2 4Q2.2 1 5 1Q8 1 8 4Q8 6 2 13H8.2',
  3: 'M2 2.6Q3 1 5 1Q7.8 1 7.8 3.9Q7.8 6.6 4.6 6.6Q8.2 6.6 8.2 9.8Q8.2 13 5 13Q2.6 13 1.8 11',
  4: 'M6.4 13V1L1.6 9.4H8.8',
  5: 'M7.6 1H3L2.4 6.4Q3.4 5.4 5.2 5.4Q8.2 5.4 8.2 9.1Q8.2 13 5 13Q2.8 13 1.8 11.4',
  6: 'M7.2 1.2Q2 3.4 2 9Q2 13 5 13Q8 13 8 9.4Q8 6 5 6Q2.6 6 2 9',
  7: 'M1.8 1H8.2L4.2 13',
  8: 'M5 6.6Q2.2 6.4 2.2 3.8Q2.2 1 5 1Q7.8 1 7.8 3.8Q7.8 6.4 5 6.6Q8.3 6.8 8.3 9.8Q8.3 13 5 13Q1.7 13 1.7 9.8Q1.7 6.8 5 6.6Z',
  9: 'M2.8 12.8Q8 10.6 8 5Q8 1 5 1Q2 1 2 4.6Q2 8 5 8Q7.4 8 8 5',
};

/** Digits `height` inches tall, centred at (x, y) of the picture, in inches; `turn` in degrees. */
function number(text, x, y, height, weight = 1.5, turn = 0) {
  const scale = height / 14;
  const digits = [...text].map((d, i) => `<path d="${DIGITS[d]}" transform="translate(${(i - text.length / 2) * 10} -7)"/>`).join('');
  return `<g transform="translate(${x} ${y}) rotate(${turn}) scale(${scale})" stroke-width="${weight}">${digits}</g>`;
}

const line = (x0, y0, x1, y1, w) => `<path d="M${x0} ${y0}L${x1} ${y1}" stroke-width="${w}"/>`;

async function raster(body, width, height, ppi) {
  const svg = `<svg xmlns="http://www.w3.org/2000/svg" width="${width * ppi}" height="${height * ppi}" viewBox="0 0 ${width} ${height}"><rect width="100%" height="100%" fill="#fff"/><g fill="none" stroke="#000" stroke-linecap="round" stroke-linejoin="round">${body}</g></svg>`;
  const { data, info } = await sharp(Buffer.from(svg)).greyscale().raw().toBuffer({ resolveWithObject: true });
  const at = (x, y) => {
    const ix = Math.round(x);
    const iy = Math.round(y);
    return ix < 0 || iy < 0 || ix >= info.width || iy >= info.height ? 0 : 1 - data[(iy * info.width + ix) * info.channels] / 255;
  };
  return { at, width: info.width, height: info.height, ppi };
}

const tickOf = (i) => (i % 16 === 0 ? 1 : i % 8 === 0 ? 0.46 : i % 4 === 0 ? 0.35 : i % 2 === 0 ? 0.27 : 0.19);

/** A tape's blade: sixteenths on both edges, inches numbered before their line. */
export function tapeInk(inches, width) {
  let body = '';
  for (let i = 1; i < inches * 16; i++) {
    const x = i / 16;
    const reach = tickOf(i) * width * (i % 16 === 0 ? 1 : 0.85);
    body += line(x, 0, x, reach, i % 16 === 0 ? 0.016 : 0.011);
    if (i % 16 !== 0) body += line(x, width, x, width - reach * 0.8, 0.011);
    else body += number(String(i / 16), x - (i / 16 > 9 ? 0.26 : 0.16), width * 0.54, width * 0.42, 2);
  }
  return raster(body, inches, width, 200);
}

/** A ruler read standing up: sixteenths on its left edge, inches beside their line. */
export function rulerInk(inches, width) {
  let body = '';
  for (let i = 1; i < inches * 16; i++) {
    const y = inches - i / 16;
    body += line(0, y, Math.max(0.13, tickOf(i) * 0.55) * width, y, i % 16 === 0 ? 0.018 : 0.012);
    if (i % 16 === 0) body += number(String(i / 16), width * 0.74, y, 0.28, 2);
  }
  return raster(body, width, inches, 200);
}

/** A comb gauge's plate: the value of each tooth above it, at `centres` (inches along the plate). */
export function combInk(values, centres, width, height) {
  const body = values
    .map((text, i) => number(text, centres[i], height * 0.56, 0.15, 1.9) + line(centres[i], height * 0.7, centres[i], height * 0.78, 0.014))
    .join('');
  return raster(body, width, height, 320);
}
