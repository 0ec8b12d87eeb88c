/** The part that the test uses; the package has no types. */
declare module 'perspective-transform' {
  interface Transform {
    transform(x: number, y: number): [number, number];
    transformInverse(x: number, y: number): [number, number];
  }
  export default function perspective(from: readonly number[], to: readonly number[]): Transform;
}
