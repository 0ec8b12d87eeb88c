/** Middle of the filter's slope, and its width, as shares of the lower of the two rates: nothing of half that rate or above is left. */
const SLOPE_MIDDLE = 0.47;
const SLOPE_WIDTH = 0.06;
/** How far below the wanted sound lies what the filter holds back. Window and length after Kaiser (formulas from memory; the tests measure what they give). */
const HELD_BACK_DB = 70;
const KAISER_BETA = 0.1102 * (HELD_BACK_DB - 8.7);

/**
 * A resampler from one whole rate to another, in Hz, for a sound that comes in blocks: each block gives the samples that can be told by
 * then, and the blocks' borders leave no trace. The last few milliseconds of a sound are never given: they would need what comes after.
 */
export function resampler(fromHz: number, toHz: number): (block: Float32Array) => Float32Array<ArrayBuffer> {
  if (!Number.isSafeInteger(fromHz) || !Number.isSafeInteger(toHz) || fromHz < 1 || toHz < 1)
    throw new RangeError(`rate: expected whole numbers from 1, got ${fromHz} and ${toHz}`);
  const shared = gcd(fromHz, toHz);
  const phases = toHz / shared;
  const step = fromHz / shared;
  const filters = filtersOf(fromHz, toHz, phases);
  const half = filters[0]!.length / 2;

  // Sound before the beginning is silence.
  let held = new Float32Array(half - 1);
  /** Number of the next sample to give, and of the input sample that `held` starts with. */
  let next = 0;
  let heldFrom = 1 - half;
  return (block) => {
    const input = new Float32Array(held.length + block.length);
    input.set(held);
    input.set(block, held.length);
    const end = heldFrom + input.length;
    const given: number[] = [];
    for (; ; next++) {
      const before = Math.floor((next * step) / phases);
      if (before + half >= end) break;
      const filter = filters[(next * step) % phases]!;
      const first = before - half + 1 - heldFrom;
      let sum = 0;
      for (let k = 0; k < filter.length; k++) sum += filter[k]! * input[first + k]!;
      given.push(sum);
    }
    const needed = Math.floor((next * step) / phases) - half + 1;
    held = input.slice(needed - heldFrom);
    heldFrom = needed;
    return Float32Array.from(given);
  };
}

/** One filter for each place an output sample can have between two input samples, each passing a constant unchanged. */
function filtersOf(fromHz: number, toHz: number, phases: number): Float64Array[] {
  const low = Math.min(fromHz, toHz);
  const cutoff = (SLOPE_MIDDLE * low) / fromHz;
  const taps = (HELD_BACK_DB - 8) / (2.285 * 2 * Math.PI * ((SLOPE_WIDTH * low) / fromHz));
  const half = Math.ceil(taps / 2);
  return Array.from({ length: phases }, (_, phase) => {
    const filter = Float64Array.from({ length: 2 * half }, (_, k) => {
      const x = k - half + 1 - phase / phases;
      return sinc(2 * cutoff * x) * kaiser(x / half);
    });
    const sum = filter.reduce((total, tap) => total + tap, 0);
    return filter.map((tap) => tap / sum);
  });
}

function sinc(x: number): number {
  return x === 0 ? 1 : Math.sin(Math.PI * x) / (Math.PI * x);
}

function kaiser(x: number): number {
  return Math.abs(x) >= 1 ? 0 : bessel0(KAISER_BETA * Math.sqrt(1 - x * x)) / bessel0(KAISER_BETA);
}

/** The modified Bessel function of order 0 by its power series. */
function bessel0(x: number): number {
  let sum = 1;
  let term = 1;
  for (let k = 1; term > sum * 1e-12; k++) {
    term *= (x / (2 * k)) ** 2;
    sum += term;
  }
  return sum;
}

function gcd(a: number, b: number): number {
  return b === 0 ? a : gcd(b, a % b);
}
