import type { LaidPiece, Overlap } from '../job/drawing/laid.ts';
import type { RoomShape } from '../job/drawing/shape.ts';
import type { Layer } from '../job/systems.ts';
import type { Point } from '../measure/plane.ts';

/** Shapes that stand for a state, so that print in grey says it too. */
// prettier-ignore
export type Glyph =
  | 'within' | 'outside' | 'not-proven' | 'no-limit'
  | 'owed' | 'shown' | 'not-done' | 'deviation' | 'not-begun' | 'running' | 'note'
  | 'wait' | 'ready'
  | 'flood-open' | 'passed' | 'failed' | 'void';

export interface Cell {
  readonly text: string;
  readonly strong?: boolean;
  /** A second text below, never strong. */
  readonly under?: string;
  readonly glyph?: Glyph;
}

export interface Column {
  readonly head: string;
  /** Share of the width beside the other columns. */
  readonly share: number;
}

export interface Photo {
  /** Stands in its corner: the number of a photo, the place in the log of a signature. */
  readonly mark: string;
  /** Hash of the original, by which its picture is found; `printed` is false when there is none to print. */
  readonly sha256: string;
  readonly printed: boolean;
  readonly alt: string;
  readonly lead: string;
  readonly caption: string;
  /** What was tapped and found in it, drawn over it. */
  readonly over?: PhotoOverlay;
}

type Place = readonly [x: number, y: number];

/** Points, lines and rings over a photo, in pixels of the upright original, whose size it names. */
export interface PhotoOverlay {
  readonly width: number;
  readonly height: number;
  /** `found` is what the values rest on, `measured` what they are of, `worst` the poorest part of it. */
  readonly lines: readonly {
    readonly points: readonly Place[];
    readonly isClosed: boolean;
    readonly look: 'found' | 'measured' | 'worst';
  }[];
  readonly taps: readonly Place[];
  readonly rings: readonly { readonly n: number; readonly at: Place; readonly radius: number; readonly isStruck: boolean }[];
}

/** Where an owed item lies on the nested L, wall leg or floor leg, and whether it is shown, still owed, or was left out on purpose. */
export interface SectionCell {
  readonly leg: 'wall' | 'floor';
  readonly stand: 'shown' | 'owed' | 'left-out';
}

export interface SectionLayer {
  readonly layer: Layer;
  readonly begun: boolean;
  readonly cells: readonly SectionCell[];
  readonly name: string;
}

/** What is printed, in words, before anything has a place on a page. */
export type Block =
  | { readonly block: 'title'; readonly text: string; readonly under: readonly Cell[]; readonly aside: readonly string[] }
  | { readonly block: 'heading'; readonly level: 1 | 2; readonly text: string; readonly aside?: string }
  | { readonly block: 'paragraph'; readonly text: string; readonly strong?: boolean }
  | { readonly block: 'facts'; readonly labelShare: number; readonly rows: readonly { readonly label: Cell; readonly text: string }[] }
  /** `points`: size of its text, where it is not that of every table. */
  | { readonly block: 'table'; readonly columns: readonly Column[]; readonly rows: readonly (readonly Cell[])[]; readonly points?: number }
  | { readonly block: 'photos'; readonly columns: number; readonly missing: string; readonly photos: readonly Photo[] }
  /** Photos of one place each, wide to close: those of a place stand side by side at one height. */
  | { readonly block: 'chains'; readonly missing: string; readonly chains: readonly (readonly Photo[])[] }
  | PlotBlock
  | CurveBlock
  | FloorBlock
  | WallsBlock
  /** The headings of the edition it stands in, with their pages. */
  | { readonly block: 'contents'; readonly text: string }
  | { readonly block: 'section'; readonly alt: string; readonly layers: readonly SectionLayer[] }
  /** Side by side where neither is too tall, else one after the other, the right one first. `leftShare` of the width, 0 to 1. */
  | { readonly block: 'columns'; readonly left: readonly Block[]; readonly right: readonly Block[]; readonly leftShare: number };

/** A mark on an axis. */
export interface Tick {
  readonly at: number;
  readonly label: string;
}

/** How a bar is drawn: `solid` stands within, `hollow` is not proven, `crossed` lies outside, `light` is no work but a wait. */
export type BarLook = 'solid' | 'hollow' | 'crossed' | 'light';

/** Bars on one axis, a row each: readings against the thick line of a limit, or steps over days. `from` and `to` are in the axis' own numbers. */
export interface PlotBlock {
  readonly block: 'plot';
  readonly alt: string;
  readonly caption: string;
  readonly ticks: readonly Tick[];
  readonly limits: readonly number[];
  readonly rows: readonly { readonly label: string; readonly from: number; readonly to: number; readonly look: BarLook }[];
}

/** Series of points: `square` the water under test, `ring` the control pan. y grows downwards, as a level falls. */
export interface CurveBlock {
  readonly block: 'curve';
  readonly alt: string;
  readonly caption: string;
  readonly across: readonly Tick[];
  readonly down: readonly Tick[];
  /** Drawn across the plot as a thick line: the fall that is too much. */
  readonly limit: number | null;
  readonly series: readonly {
    readonly name: string;
    readonly look: 'square' | 'ring';
    /** `take`: the give or take of the point. */
    readonly points: readonly { readonly x: number; readonly y: number; readonly take: number }[];
  }[];
}

/** What the drawings of a room have in common: its walls by what is written at them, and what stands in it by its name. */
interface Drawn {
  readonly alt: string;
  readonly shape: RoomShape;
  /** Of each wall: its name, its length. */
  readonly names: readonly string[];
  readonly lengths: readonly string[];
  readonly things: Readonly<Record<string, string>>;
  /** Hatched: nothing may be drilled into it. */
  readonly isHatched: boolean;
}

/** The floor of a room to scale, as tall as `height` points, with numbered marks and, where they are planned, the sheets on it. */
export interface FloorBlock extends Drawn {
  readonly block: 'floor';
  readonly height: number;
  readonly marks: readonly { readonly n: number; readonly at: Point }[];
  readonly sheets: SheetsOn | null;
}

/** What is laid on one surface, in its own coordinates. */
export interface SheetsOn {
  readonly pieces: readonly LaidPiece[];
  readonly overlaps: readonly Overlap[];
  readonly isAlongX: boolean;
}

/** The walls of a room unfolded to scale, seen from inside, in the order of the walk. */
export interface WallsBlock extends Drawn {
  readonly block: 'walls';
  readonly heights: readonly string[];
  /** The height of each by its name, for a wall too low for a dimension line. */
  readonly tall: readonly string[];
  readonly marks: readonly { readonly n: number; readonly wall: number; readonly at: Point }[];
  /** How high the watertight layer was measured to reach, in ten-thousandths, and the words for it. */
  readonly levels: readonly { readonly wall: number; readonly up: number; readonly text: string }[];
  readonly sheets: readonly (SheetsOn & { readonly wall: number })[];
}

/** A part begins on a page of its own. */
export interface Part {
  readonly name: string;
  readonly blocks: readonly Block[];
  /** Stands at the bottom of the part's first page, however far the blocks run on. */
  readonly foot?: readonly Block[];
}

export interface Labelled {
  readonly label: string;
  readonly text: string;
}

/** What stands in the title block of every page, bottom right. */
export interface TitleBlock {
  readonly job: Labelled;
  readonly second: Labelled;
  readonly partLabel: string;
  readonly head: Labelled;
  readonly pageLabel: string;
  readonly page: (n: number, of: number) => string;
  /** Said beside the title block on every page, '' for most jobs. */
  readonly warning: string;
}

/** A paper in one language. */
export interface Edition {
  readonly lang: string;
  readonly titleBlock: TitleBlock;
  readonly parts: readonly Part[];
}

/** What is printed: one edition, or the same in one language after the other. */
export interface Worded {
  readonly title: string;
  readonly editions: readonly [Edition, ...Edition[]];
  /** What the attached log is, for whoever opens the list of attachments. */
  readonly logDescription: string;
}
