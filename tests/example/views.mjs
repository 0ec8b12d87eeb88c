import { membrane } from './cloth.mjs';
import { TONES } from './paint.mjs';
import { pail, trowel } from './props.mjs';
import { bands, fall, FLOOR, roomLight, sheets, shell } from './room.mjs';
import { placed } from './shapes.mjs';

/** How a picture is held, and surfaces many pictures share. */

/** A close picture of what lies on the drawing plane. */
export const near = (at, to, scene, develop = {}) => ({
  ...scene,
  camera: { at, to, fov: 58, up: [0.04, 1, 0.2] },
  develop: { focus: dist(at, to), ...develop },
});
/** The same from the far side, so that what stands at v = 0 is seen. */
export const facing = (at, to, scene) => ({ ...near(at, to, scene), camera: { at, to, fov: 56, up: [0.04, 0, 1] } });
/** A picture of the room, the phone held a little askew. */
export const wide = (at, to, shapes, light = {}, develop = {}, tilt = 0.02) => ({
  shapes,
  ...roomLight(light),
  camera: { at, to, fov: 66, up: [tilt, 0, 1] },
  develop: { focus: dist(at, to), blur: 0.3, ...develop },
});
const dist = (a, b) => Math.hypot(a[0] - b[0], a[1] - b[1], a[2] - b[2]);

export const sheet = (seed, more = {}) => membrane(TONES.sheet, { seed, ...more });
export const band = (seed, more = {}) => membrane(TONES.band, { seed, weave: 0.6, ...more });
/** The shower sheeted and banded. */
export const liner = () => [...shell(), ...sheets({ banded: true }), ...bands()];
/** Left standing in the shower while the walls are photographed. */
export const tools = [...pail(placed(FLOOR, 47, 27, fall(47, 27))), ...trowel(placed(FLOOR, 19, 24, fall(19, 24), 28))];
