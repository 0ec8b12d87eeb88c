import { moved, type Heading, type Op } from './page.ts';

/** A band of the page that is never broken: what is drawn in it lies between 0 and `height`, from its own upper left. */
export interface Strip {
  /** Space above it, dropped at the top of a page. */
  readonly before: number;
  readonly height: number;
  readonly ops: readonly Op[];
  /** True when it may not be the last on a page: a heading, the head of a table. */
  readonly keep?: boolean;
  /** The heading it begins with: what contents and bookmarks lead to. */
  readonly heading?: Heading;
  /** Drawn again above it when it begins a page: the head of the table it belongs to. */
  readonly again?: { readonly height: number; readonly ops: readonly Op[] };
}

/** Height of strips one under the other. */
export function totalHeight(strips: readonly Strip[]): number {
  return strips.reduce((sum, { before, height }, i) => sum + height + (i === 0 ? 0 : before), 0);
}

/** What strips one under the other draw, from (x, y) down. */
export function stacked(strips: readonly Strip[], x: number, y: number): Op[] {
  return strips.flatMap(({ ops }, i) => moved(ops, x, y + totalHeight(strips.slice(0, i + 1)) - strips[i]!.height));
}
