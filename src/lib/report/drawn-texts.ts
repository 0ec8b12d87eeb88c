import type { Point } from '../measure/plane.ts';
import { INK, type Op, type Tag } from './page.ts';
import { printable, type Measure } from './text.ts';

const SIZE = 8;
const PAD = 1.5;

interface Box {
  readonly x1: number;
  readonly y1: number;
  readonly x2: number;
  readonly y2: number;
}

/** The texts of a drawing, each on a white plate about its middle; one that would touch an earlier one is left out. */
export class DrawnTexts {
  readonly #figure: Tag;
  readonly #measure: Measure;
  readonly #taken: Box[] = [];

  constructor(figure: Tag, measure: Measure) {
    this.#figure = figure;
    this.#measure = measure;
  }

  /** A place that is taken already. */
  reserve(box: Box): void {
    this.#taken.push(box);
  }

  width(said: string): number {
    return this.#measure(printable(said), 'text', SIZE);
  }

  /** Nothing where there is no room for it. `turn`: degrees clockwise. */
  at(
    said: string,
    { x, y }: Point,
    { turn = 0, size = SIZE, isStrong = false }: { turn?: number; size?: number; isStrong?: boolean } = {},
  ): Op[] {
    const face = isStrong ? 'strong' : 'text';
    const text = printable(said).replaceAll('\n', ' ').replaceAll('\u00a0', ' ');
    const [half, tall] = [this.#measure(text, face, size) / 2 + PAD, (size * 1.3) / 2];
    const [cos, sin] = [Math.cos((turn * Math.PI) / 180), Math.sin((turn * Math.PI) / 180)].map((one) => Math.round(one * 1e4) / 1e4) as [
      number,
      number,
    ];
    const [across, down] = [Math.abs(cos) * half + Math.abs(sin) * tall, Math.abs(sin) * half + Math.abs(cos) * tall];
    const box = { x1: x - across, y1: y - down, x2: x + across, y2: y + down };
    if (this.#taken.some((one) => one.x1 < box.x2 && box.x1 < one.x2 && one.y1 < box.y2 && box.y1 < one.y2)) return [];
    this.#taken.push(box);
    // From the middle to the beginning of the base line: capitals stand 0.7 of the size.
    const [left, drop] = [PAD - half, 0.35 * size];
    return [
      {
        op: 'path',
        tag: this.#figure,
        x,
        y,
        d: `M${-half} ${-tall}H${half}V${tall}H${-half}Z`,
        fill: '#ffffff',
        matrix: [cos, sin, -sin, cos, 0, 0],
      },
      {
        op: 'text',
        tag: this.#figure,
        x: x + cos * left - sin * drop,
        y: y + sin * left + cos * drop,
        text,
        face,
        size,
        ink: INK,
        ...(turn !== 0 && { turn }),
      },
    ];
  }
}
