import { edgeWall, exitWall } from '#lib/job/drawing/laid.ts';
import type { RoomShape } from '#lib/job/drawing/shape.ts';
import type { NoSheets, PlannedSheets, Remedy } from '#lib/record/plan-result.ts';
import { drawnLength } from '#lib/words/drawn-length.ts';
import { CHOICE } from '#lib/words/fields.ts';
import * as m from '#lib/words/compiled/messages.js';
import { IMPOSSIBLE, REMEDY, TRAP } from '#lib/words/sheet-plan.ts';
import { wallName } from '../draw/drawing-text.ts';

type Lang = 'en' | 'es';

/** A length of the planner, a decimal of the drawing's unit, on a tape. */
export function decimalLength(decimal: string, unit: 'in' | 'mm', lang: Lang): string {
  return drawnLength(Number(decimal) * 10_000, unit, lang);
}

/** One step of the order: what is laid, where one kneels, and the way out after it. */
export interface StepText {
  readonly what: string;
  readonly kneel: string;
  readonly out: string;
}

export function stepTexts(plan: PlannedSheets, input: Readonly<Record<string, unknown>>, shape: RoomShape, lang: Lang): StepText[] {
  const at = (decimal: string) => decimalLength(decimal.replace('-', ''), plan.unit, lang);
  return (plan.laying.steps ?? []).map(({ piece, stretch, stands, exit }) => {
    const [i, of] = [Number(stretch.i) + 1, Number(stretch.of)];
    const what = of === 1 ? m.plan_lay({ piece }) : m.plan_lay_part({ piece, i, of, from: at(stretch.from), to: at(stretch.to) });
    const wall = exitWall(shape, input, Number(exit));
    return {
      what,
      kneel: stands.map(([x, y]) => m.plan_kneel({ x: sideText(x, at, m.plan_across), y: sideText(y, at, m.plan_into) })).join('; '),
      out: wall === null ? '' : m.plan_out({ wall: wallName(wall) }),
    };
  });
}

/** A place below zero lies outside: beyond the walls where the walk begins. */
function sideText(decimal: string, at: (decimal: string) => string, inside: (facts: { length: string }) => string): string {
  return decimal.startsWith('-') ? m.plan_outside({ length: at(decimal) }) : inside({ length: at(decimal) });
}

/** Where the edge of a strip comes to lie, measured from corner 1 of the floor or from the left end of a wall. */
export function edgeText(position: string, direction: '0' | '90', unit: 'in' | 'mm', lang: Lang): string {
  return sideText(
    position,
    (decimal) => decimalLength(decimal.replace('-', ''), unit, lang),
    direction === '0' ? m.plan_into : m.plan_across,
  );
}

const said = (words: Readonly<Record<string, () => string>>, code: string) => (Object.hasOwn(words, code) ? words[code]!() : code);
export const trapText = (code: string) => said(TRAP, code);

/** What stands in the way, of which wall where it is one of walls. */
export function impossibleText({ impossible, wall }: NoSheets, of: 'floor' | 'walls'): string {
  const text = of === 'walls' && impossible === 'keep-out' ? m.impossible_wall_keep_out() : said(IMPOSSIBLE, impossible);
  return wall === undefined ? text : `${wallName(Number(wall))}. ${text}`;
}

const ALONE_WITHOUT_ROLL: ReadonlySet<string> = new Set(['smaller-keep-out', 'smaller-upturn', 'finer-gauge', 'free-seams']);

/** What helps, with its measure where it is one. */
export function remedyText(remedy: Remedy, unit: 'in' | 'mm', lang: Lang): string {
  const measure = ['reach', 'longestPiece', 'upturn'].map((field) => remedy[field]).find((one) => typeof one === 'string');
  const roll = (remedy['roll'] as { width?: unknown; newLength?: unknown } | undefined) ?? {};
  const length = measure ?? (remedy.kind === 'wider-roll' ? roll.width : remedy.kind === 'longer-roll' ? roll.newLength : undefined);
  const name = said(REMEDY, remedy.kind);
  // Where the rolls at hand are too short for what helps.
  if (ALONE_WITHOUT_ROLL.has(remedy.kind) && typeof roll.newLength === 'string')
    return `${name}. ${m.plan_remedy({ name: said(REMEDY, 'longer-roll'), length: decimalLength(roll.newLength, unit, lang) })}`;
  return typeof length === 'string' ? m.plan_remedy({ name, length: decimalLength(length, unit, lang) }) : name;
}

/** The edges of the floor that no floor sheet goes up, by the names of their walls. */
export function bareEdges(plan: PlannedSheets, input: Readonly<Record<string, unknown>>, shape: RoomShape): string {
  const names = plan.upturnMissing.map((edge) => {
    const wall = edgeWall(shape, input, Number(edge));
    return wall === null ? CHOICE['thing.bench']() : wallName(wall);
  });
  return [...new Set(names)].join(', ');
}
