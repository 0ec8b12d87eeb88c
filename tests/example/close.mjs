import { coat, thinset } from './materials.mjs';
import { noise, ramp } from './noise.mjs';
import { comb, tape } from './props.mjs';
import { frame, layer, placed, plane, upright } from './shapes.mjs';

/** Close pictures of one place, drawn lying down: u to the right, v away, w towards the eye. */

export const LYING = frame([0, 0, 0], [1, 0, 0], [0, 1, 0], [0, 0, 1]);

/** Light of a work lamp from one side over a bathroom's own light. */
export function lamps({ from = [-26, 30, 34], warm = 1, strength = 1, fill = 0.3 } = {}) {
  return {
    lamps: [{ at: from, rgb: [1.75 * strength, 1.68 * strength, (1.62 - 0.2 * warm) * strength], radius: 4 }],
    sky: [0.62 * fill * 2, 0.63 * fill * 2, 0.66 * fill * 2],
    ground: [0.26 * fill * 2, 0.25 * fill * 2, 0.24 * fill * 2],
  };
}

/**
 * Two sheets at the dry fit, both edges in view: the upper one's edge at v = 0, the lower one's far edge at v = `lap`, seen
 * beside the upper sheet's end; the tape lies there with its zero on the upper edge.
 */
export function lapTape({ lap, ground, lower, upper, turn = 0, light = {} }) {
  const wobble = (s) => 0.02 * noise(s * 0.5, 0, 9) + 0.008 * noise(s * 2, 0, 10);
  const step = (v) => 0.055 * ramp(lap + 0.12, lap - 0.1, v);
  const top = (u, v) =>
    0.06 + step(v) + 0.07 * ramp(0.6, 0, v) * ramp(-0.3, 0.7, noise(u * 0.2, 0, 12)) + 0.02 * noise(u * 0.3, v * 0.3, 13);
  const beside = placed(LYING, -0.42, 0, 0.02, 90 + turn);
  const shapes = [
    plane(LYING, ground),
    layer(LYING, [-40, -40, 40, lap], 0.3, (u, v) => 0.055 + 0.012 * noise(u * 0.3, v * 0.3, 14), lower, { wobble }),
    layer(LYING, [0, 0, 40, 40], 0.3, top, upper, { wobble }),
    ...tape(beside, { rise: (u) => 0.06 * ramp(lap + 0.5, lap - 0.1, u) }),
  ];
  return { shapes, ...lamps(light) };
}

/** A band in a corner, the corner along u at v = 0 and a wall standing there; the tape's zero is pushed into the corner. */
export function bandTape({ lap, under, band, turn = 0, light = {} }) {
  const wall = frame([0, 0, 0], [-1, 0, 0], [0, 0, 1], [0, 1, 0]);
  const wobble = (s) => 0.02 * noise(s * 0.5, 0, 9) + 0.008 * noise(s * 2, 0, 10);
  const top = (u, v) => 0.07 + 0.25 * ramp(0.25, 0, v) + 0.015 * noise(u * 0.4, v * 0.4, 13);
  const shapes = [
    plane(LYING, under),
    plane(wall, under),
    layer(LYING, [-40, -0.2, 40, lap], 0.4, top, band, { wobble }),
    layer(wall, [-40, -0.2, 40, 2.5], 0.4, (u, v) => 0.07 + 0.015 * noise(u * 0.4, v * 0.4, 15), band, { wobble }),
    ...tape(placed(LYING, 0, 0.1, 0.05, 90 + turn), { rise: (u) => 0.07 * ramp(lap + 0.3, lap - 0.2, u) + 0.1 * ramp(0.5, 0.1, u) }),
  ];
  return { shapes, ...lamps(light) };
}

/** Film with the comb standing in it. */
export function combInFilm({ wet, under, cover, seed, turn = 4, light = {} }) {
  const film = coat(under, { wet: 1, cover, seed });
  const room = lamps(light);
  // A second lamp beyond the gauge: the sheen of the film is what shows that it is wet.
  room.lamps.push({ at: [-20, 34, 26], rgb: [0.9, 0.88, 0.84], radius: 4 });
  return { shapes: [plane(LYING, film), ...comb(upright(placed(LYING, 0, 0, 0, turn)), wet)], ...room };
}

/** Ridges of a 1/4 in square-notched trowel, combed along u with the swing of an arm. */
export function ridges({ seed = 5, pitch = 0.5, height = 0.22, angle = 0 } = {}) {
  const c = Math.cos((angle * Math.PI) / 180);
  const s = Math.sin((angle * Math.PI) / 180);
  return (u0, v0) => {
    const u = u0 * c + v0 * s;
    const v = v0 * c - u0 * s;
    const pass = Math.floor((v + 0.5 * noise(u * 0.1, 3, seed)) / 10.5);
    const swing = 0.9 * Math.sin(u * 0.11 + pass * 2.1) + 0.3 * noise(u * 0.25, pass * 7, seed + 1);
    const phase = ((((v + swing) / pitch) % 1) + 1) % 1;
    const ragged = 0.12 * noise(u * 1.7, Math.floor((v + swing) / pitch) * 3.1, seed + 2);
    const tooth = ramp(0.12, 0.4, phase + ragged * 0.4) * ramp(0.92, 0.64, phase + ragged * 0.4);
    const slump = 0.82 + 0.22 * noise(u * 1.1, v * 1.1, seed + 3) + 0.1 * noise(u * 5, v * 5, seed + 8);
    return 0.025 + height * tooth * slump + 0.012 * noise(u * 4, v * 4, seed + 4);
  };
}

export const combed = (f, box, options) =>
  layer(f, box, 0.34, ridges(options), thinset(0.8, options?.seed ?? 51), { slack: 0.5, wobble: (s) => 0.25 * noise(s * 0.7, 1, 6) });
