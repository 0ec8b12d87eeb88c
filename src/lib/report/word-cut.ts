import { TRAP } from '../words/sheet-plan.ts';
import { drawnLength } from '../words/drawn-length.ts';
import * as m from '../words/compiled/messages.js';
import type { Block, Cell } from './blocks.ts';
import type { RecordPlan, RecordWalls } from './record-document.ts';
import type { Speaker } from './speaker.ts';

/** What is cut: for a floor, or for walls together. */
export interface Cuts extends Pick<RecordPlan, 'at' | 'width' | 'bare'> {
  readonly sheets: Pick<RecordPlan['sheets'], 'unit' | 'pieces' | 'rolls' | 'totalCut'> & {
    readonly proven: { readonly plan: boolean; readonly packing: boolean };
  };
  /** Where the edge of each piece comes to lie. */
  readonly edges: readonly ((say: Speaker) => string)[];
}

export function floorCuts(plan: RecordPlan): Cuts {
  const { direction, positions, pieces } = plan.sheets;
  const inside = direction === '0' ? m.plan_into : m.plan_across;
  const edges = pieces.map(
    ({ strip }) =>
      (say: Speaker) =>
        m.cut_edge({ at: sideText(positions[Number(strip)]!, inside, plan, say) }, { locale: say.locale }),
  );
  return { ...plan, edges };
}

export function wallCuts(walls: RecordWalls): Cuts {
  const { unit, rolls, proven, walls: all } = walls.sheets;
  const edges = all.flatMap(({ wall, pieces, positions }) =>
    pieces.map(({ strip }) => (say: Speaker) => {
      const { locale } = say;
      const at = sideText(positions[Number(strip)]!, m.plan_across, walls, say);
      return m.cut_edge_wall({ wall: m.draw_wall_n({ n: Number(wall) + 1 }, { locale }), at }, { locale });
    }),
  );
  const totalCut = String(Number(all.reduce((sum, one) => sum + Number(one.totalCut), 0).toFixed(4)));
  return { ...walls, bare: [], edges, sheets: { unit, rolls, proven, totalCut, pieces: all.flatMap(({ pieces }) => pieces) } };
}

type Measured = { readonly sheets: Pick<RecordPlan['sheets'], 'unit'> };

/** A place below zero lies outside: beyond where the walk or the wall begins. */
function sideText(decimal: string, inside: typeof m.plan_across, plan: Measured, say: Speaker): string {
  const length = planLength(plan, say)(decimal.replace('-', ''));
  return (decimal.startsWith('-') ? m.plan_outside : inside)({ length }, { locale: say.locale });
}

/** A length of a plan, a decimal of its unit, on a tape. */
function planLength({ sheets: { unit } }: Measured, say: Speaker): (decimal: string) => string {
  return (decimal) => drawnLength(Number(decimal) * 10_000, unit, say.locale);
}

/** What is cut, piece by piece and roll by roll. `points`: size of the pieces, to be read from the floor. */
export function cutBlocks(plan: Cuts, say: Speaker, { points }: { readonly points?: number }): Block[] {
  const { locale } = say;
  const { sheets, width } = plan;
  const length = planLength(plan, say);
  const rollOf = (id: string) => sheets.rolls.findIndex(({ pieces }) => pieces.includes(id)) + 1;
  return [
    {
      block: 'table',
      ...(points !== undefined && { points }),
      columns: [
        { head: say.field('plan', 'piece'), share: 2 },
        { head: say.field('plan', 'cutLength'), share: 4 },
        { head: m.record_col_roll({}, { locale }), share: 3 },
        { head: '', share: 3 },
      ],
      rows: sheets.pieces.map(({ id, cutLength, notched }): Cell[] => [
        { text: id, strong: true },
        { text: length(cutLength), strong: true },
        { text: m.cut_roll({ n: rollOf(id) }, { locale }) },
        { text: notched ? m.cut_notched({}, { locale }) : '' },
      ]),
    },
    {
      block: 'paragraph',
      text: [
        m.cut_total({ length: length(sheets.totalCut) }, { locale }),
        m.cut_of({ width: drawnLength(width, sheets.unit, locale), date: say.day(plan.at) }, { locale }),
        ...(sheets.proven.plan && sheets.proven.packing ? [] : [m.plan_not_proven({}, { locale })]),
      ]
        .map((one) => (one.endsWith('.') ? one : `${one}.`))
        .join(' '),
    },
    { block: 'paragraph', text: sheets.pieces.map(({ id }, i) => `${id}: ${plan.edges[i]!(say)}`).join(' ') },
    { block: 'facts', labelShare: 0.12, rows: rollRows(plan, say) },
    ...(plan.bare.length === 0
      ? []
      : [{ block: 'paragraph' as const, text: m.plan_upturn_missing_text({ walls: bareWalls(plan, say) }, { locale }) }]),
  ];
}

function bareWalls({ bare }: Cuts, say: Speaker): string {
  const { locale } = say;
  return bare.map((wall) => (wall === null ? say.choice('thing', 'bench') : m.draw_wall_n({ n: wall + 1 }, { locale }))).join(', ');
}

function rollRows(plan: Cuts, say: Speaker): { label: Cell; text: string }[] {
  const { locale } = say;
  const { sheets } = plan;
  const length = planLength(plan, say);
  const cut = (id: string) => Number(sheets.pieces.find((piece) => piece.id === id)?.cutLength ?? 0);
  return sheets.rolls.map((roll, i) => ({
    label: { text: m.cut_roll({ n: i + 1 }, { locale }), strong: true },
    text: m.cut_roll_text(
      {
        kind: roll.new ? m.cut_new({}, { locale }) : m.cut_at_hand({}, { locale }),
        length: length(roll.length),
        pieces: roll.pieces.map((id) => `${id} ${length(String(cut(id)))}`).join(', '),
        left: length((Number(roll.length) - roll.pieces.reduce((sum, id) => sum + cut(id), 0)).toFixed(4)),
      },
      { locale },
    ),
  }));
}

/** The order of laying step by step, or the trap that leaves none. */
export function orderBlocks(plan: RecordPlan, say: Speaker): Block[] {
  const { locale } = say;
  const { laying } = plan.sheets;
  const heading: Block = { block: 'heading', level: 2, text: m.plan_order({}, { locale }) };
  if (laying.trap !== undefined) {
    const words: Readonly<Record<string, (inputs: Record<string, never>, options: { locale: typeof locale }) => string>> = TRAP;
    const trap = Object.hasOwn(words, laying.trap) ? words[laying.trap]!({}, { locale }) : laying.trap;
    return [heading, { block: 'paragraph', text: `${m.plan_trap({}, { locale })}. ${trap}` }];
  }
  return [
    heading,
    {
      block: 'facts',
      labelShare: 0.05,
      rows: (laying.steps ?? []).map((_, i) => ({ label: { text: String(i + 1), strong: true }, text: stepText(plan, i, say) })),
    },
    { block: 'paragraph', text: m.plan_order_note({ wall: m.draw_wall_n({ n: 1 }, { locale }) }, { locale }) },
  ];
}

function stepText(plan: RecordPlan, i: number, say: Speaker): string {
  const { locale } = say;
  const { piece, stretch, stands } = plan.sheets.laying.steps![i]!;
  const length = planLength(plan, say);
  const side = (decimal: string, inside: typeof m.plan_across) => sideText(decimal, inside, plan, say);
  const [part, of] = [Number(stretch.i) + 1, Number(stretch.of)];
  const exit = plan.exits[i] ?? null;
  return [
    of === 1
      ? m.plan_lay({ piece }, { locale })
      : m.plan_lay_part({ piece, i: part, of, from: length(stretch.from), to: length(stretch.to) }, { locale }),
    stands.map(([x, y]) => m.plan_kneel({ x: side(x, m.plan_across), y: side(y, m.plan_into) }, { locale })).join('; '),
    ...(exit === null ? [] : [m.plan_out({ wall: m.draw_wall_n({ n: exit + 1 }, { locale }) }, { locale })]),
  ]
    .map((one) => `${one}.`)
    .join(' ');
}
