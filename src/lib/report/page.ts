import type { Block, Part } from './blocks.ts';
import { LEADING, type Face } from './text.ts';

/** An element of the document's structure, for readers that do not see the page. */
export interface Tag {
  readonly type: 'Document' | 'Sect' | 'TOC' | 'TOCI' | 'H1' | 'H2' | 'P' | 'Table' | 'TR' | 'TH' | 'TD' | 'Figure' | 'Caption';
  readonly alt?: string;
  /** Where it differs from the document's. */
  readonly lang?: string;
  readonly scope?: 'Row' | 'Column';
  readonly kids: Tag[];
}

/** Greys of the record: ink, second line, rulings. */
export type Grey = string;
export const INK: Grey = '#000000';
export const INK_2: Grey = '#333333';
export const HAIR: Grey = '#bbbbbb';

/** Something drawn at a place in points, from the upper left. `tag` null: part of the page, not of what it says. */
export type Op = { readonly tag: Tag | null; readonly x: number; readonly y: number } &
  /** `turn`: degrees clockwise about the place. */
  (
    | {
        readonly op: 'text';
        readonly text: string;
        readonly face: Face;
        readonly size: number;
        readonly ink: Grey;
        readonly turn?: number;
      }
    | PathOp
    | { readonly op: 'image'; readonly sha256: string; readonly width: number; readonly height: number }
  );

export interface PathOp {
  readonly op: 'path';
  /** SVG path in the op's own coordinates, or in those of `matrix`. */
  readonly d: string;
  readonly fill?: Grey;
  readonly stroke?: Grey;
  readonly pen?: number;
  readonly dash?: readonly [number, number];
  readonly matrix?: readonly [number, number, number, number, number, number];
  /** SVG path in the op's own coordinates, outside of which nothing is drawn. */
  readonly clip?: string;
}

export interface Page {
  readonly ops: readonly Op[];
  readonly headings: readonly PlacedHeading[];
}

/** A heading is known by the part or block that it is of. */
export interface Heading {
  readonly of: Part | Block;
  readonly level: 1 | 2;
  readonly text: string;
}

/** A heading on its page, `y` points below the upper edge. */
export interface PlacedHeading extends Heading {
  readonly y: number;
}

/** A tag hung on its parent. */
export function tag(parent: Tag, type: Tag['type'], more: { alt?: string; lang?: string; scope?: 'Row' | 'Column' } = {}): Tag {
  const made: Tag = { type, ...more, kids: [] };
  parent.kids.push(made);
  return made;
}

export function moved(ops: readonly Op[], dx: number, dy: number): Op[] {
  return ops.map((one) => ({ ...one, x: one.x + dx, y: one.y + dy }));
}

/** The same ink without a part in the structure: what a page repeats. */
export function untagged(ops: readonly Op[]): Op[] {
  return ops.map((one) => ({ ...one, tag: null }));
}

export interface Style {
  readonly face: Face;
  readonly size: number;
  readonly ink?: Grey;
}

/** Lines of text from (x, y) down, one line height each. `y` of a text op is its baseline. */
export function textOps(lines: readonly string[], x: number, y: number, { face, size, ink = INK }: Style, of: Tag | null): Op[] {
  return lines.flatMap((text, i): Op[] =>
    text === '' ? [] : [{ op: 'text', tag: of, x, y: y + i * lineHeight(size) + baseline(size), text, face, size, ink }],
  );
}

export function lineHeight(size: number): number {
  return size * LEADING;
}

/** From the top of a line to its baseline: capitals (0.7 of the size) stand in the middle of the line. */
function baseline(size: number): number {
  return (lineHeight(size) + 0.7 * size) / 2;
}

export function rule(x1: number, y1: number, x2: number, y2: number, pen: number, stroke: Grey, of: Tag | null = null): Op {
  return { op: 'path', tag: of, x: x1, y: y1, d: `M0 0L${x2 - x1} ${y2 - y1}`, stroke, pen };
}
