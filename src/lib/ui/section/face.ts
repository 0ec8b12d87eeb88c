/**
 * A face: one side of a layer along one leg of the section. `s` runs along the leg from the outer corner of the drawing
 * outwards, `v` from the outside of the substrate into the room, both in pixels. Near the corner, up to `from`, the face lies
 * at `near`; from `to` on it lies at `far`; between them it slopes. A face without a step has near = far.
 */
export interface Face {
  readonly near: number;
  readonly far: number;
  readonly from: number;
  readonly to: number;
}

/** Along a leg, and into the room. */
export interface LegPoint {
  readonly s: number;
  readonly v: number;
}

export function flat(v: number): Face {
  return { near: v, far: v, from: 0, to: 0 };
}

export function faceAt(face: Face, s: number): number {
  if (s <= face.from) return face.near;
  if (s >= face.to) return face.far;
  return face.near + ((face.far - face.near) * (s - face.from)) / (face.to - face.from);
}

/** Points of a face from `start` to `end`, its step included where it lies between them. */
export function facePoints(face: Face, start: number, end: number): LegPoint[] {
  const step =
    face.near === face.far
      ? []
      : [
          { s: face.from, v: face.near },
          { s: face.to, v: face.far },
        ];
  return [{ s: start, v: faceAt(face, start) }, ...step.filter(({ s }) => s > start && s < end), { s: end, v: faceAt(face, end) }];
}

/**
 * The face of a layer of this thickness laid over the whole leg. Over a square step, as a band leaves it, it goes down at
 * 45 degrees; over a slope it keeps its thickness (the offset of a 45 degree bend is the tangent of 22.5 degrees).
 */
export function covered(face: Face, thickness: number): Face {
  const rise = face.near - face.far;
  const near = face.near + thickness;
  const far = face.far + thickness;
  if (rise === 0) return { ...face, near, far };
  if (face.from === face.to) return { near, far, from: face.to + thickness - rise, to: face.to + thickness };
  const shift = thickness * Math.tan(Math.PI / 8);
  return { near, far, from: face.from + shift, to: face.to + shift };
}

/** The face after a band of this thickness that ends square at `end`. Bands lie on a flat face: they come before any coat. */
export function banded(face: Face, thickness: number, end: number): Face {
  return { near: face.near + thickness, far: face.near, from: end, to: end };
}
