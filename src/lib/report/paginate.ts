import type { Edition, Part } from './blocks.ts';
import { moved, untagged, type Op, type PlacedHeading } from './page.ts';
import { stacked, totalHeight, type Strip } from './strip.ts';

/** A part laid out. `foot` stands at the bottom of its first page. */
export interface LaidPart {
  readonly part: Part;
  readonly edition: Edition;
  readonly strips: readonly Strip[];
  readonly foot: readonly Strip[];
}

/** The body of a page being filled, from its own upper left. */
export interface Sheet {
  readonly laid: LaidPart;
  readonly ops: Op[];
  readonly headings: PlacedHeading[];
  used: number;
  readonly room: number;
  /** True when its part began on a page before. */
  readonly ranOver: boolean;
}

const PART_GAP = 24;
const FOOT_GAP = 12;

/**
 * Strips on pages whose body is `bodyHeight` points: a strip that must not be last goes over with the one it leads to. A part
 * begins a page, unless the part before it ran over on to one and left more than half of it; an edition always does. Throws on a
 * strip taller than a page: whoever laid it out should have broken it.
 */
export function paginate(parts: readonly LaidPart[], bodyHeight: number): Sheet[] {
  const sheets: Sheet[] = [];
  for (const laid of parts) {
    const { part, edition, strips, foot } = laid;
    const last = sheets.at(-1);
    const footHeight = totalHeight(foot);
    const goesOn = last?.ranOver === true && last.laid.edition === edition && last.used < bodyHeight / 2 && foot.length === 0;
    if (goesOn) last.used += PART_GAP;
    else sheets.push(sheet(laid, bodyHeight - (foot.length === 0 ? 0 : footHeight + FOOT_GAP), false));
    const first = sheets.at(-1)!;
    first.headings.push({ of: part, level: 1, text: part.name, y: first.used });
    strips.forEach((strip, i) => {
      const needed = Math.min(heldHeight(strips, i), bodyHeight);
      const { used, room } = sheets.at(-1)!;
      if (used + (used > 0 ? strip.before : 0) + needed > room && (used > 0 || room < bodyHeight)) {
        sheets.push(sheet(laid, bodyHeight, true));
      }
      place(strip, sheets.at(-1)!);
    });
    first.ops.push(...stacked(foot, 0, bodyHeight - footHeight));
  }
  return sheets;
}

function sheet(laid: LaidPart, room: number, ranOver: boolean): Sheet {
  return { laid, ops: [], headings: [], used: 0, room, ranOver };
}

function place(strip: Strip, sheet: Sheet): void {
  if (sheet.used > 0) sheet.used += strip.before;
  else if (strip.again !== undefined) {
    sheet.ops.push(...untagged(strip.again.ops));
    sheet.used += strip.again.height;
  }
  // A hundredth of a point: sums of line heights do not come out even.
  if (sheet.used + strip.height > sheet.room + 0.01)
    throw new RangeError(`${sheet.laid.part.name}: a strip of ${strip.height} pt does not fit a page`);
  if (strip.heading !== undefined) sheet.headings.push({ ...strip.heading, y: sheet.used });
  sheet.ops.push(...moved(strip.ops, 0, sheet.used));
  sheet.used += strip.height;
}

/** Height of a strip with those that must follow it on the same page. */
function heldHeight(strips: readonly Strip[], from: number): number {
  let height = strips[from]!.height;
  for (let i = from; strips[i]!.keep === true && i + 1 < strips.length; i++) height += strips[i + 1]!.before + strips[i + 1]!.height;
  return height;
}
