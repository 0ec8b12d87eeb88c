import { shapeOf } from '../job/drawing/shape.ts';
import * as m from '../words/compiled/messages.js';
import type { Block, Part, Worded } from './blocks.ts';
import { entryHead, paperEdition, paperTitle } from './paper-frame.ts';
import type { RecordDocument, RecordDrawing } from './record-document.ts';
import { speaker, type Locale, type Speaker } from './speaker.ts';
import { cutBlocks, floorCuts, wallCuts, type Cuts } from './word-cut.ts';
import { sheetsBlock, wallSheetsBlock } from './word-drawing.ts';

/** What is cut for each room: a page to lay on the floor beside the roll. */
export type CutDocument = Pick<RecordDocument, 'rules' | 'built' | 'job' | 'heads' | 'chains' | 'people' | 'rooms' | 'surfaces'> & {
  v: 1;
  paper: 'cut';
  drawings: RecordDrawing[];
  shots: RecordDocument['shots'];
  log: RecordDocument['log'];
};

/** Null where no plan was kept. */
export function cutOf(record: RecordDocument): CutDocument | null {
  const { rules, built, job, heads, chains, people, rooms, surfaces } = record;
  const drawings = record.drawings
    .filter(({ plan, walls }) => plan !== null || walls !== undefined)
    .map((drawn) => ({ ...drawn, marks: [] }));
  if (drawings.length === 0) return null;
  const named = new Set(drawings.flatMap(({ plan, walls }) => [plan?.entry, walls?.entry]));
  const log = record.log.filter(({ id }) => named.has(id));
  return { v: 1, paper: 'cut', ...{ rules, built, job, heads, chains, people, rooms, surfaces }, drawings, shots: [], log };
}

export function wordCut(document: CutDocument, locales: readonly [Locale, ...Locale[]]): Worded {
  const [locale, ...more] = locales;
  const edition = (one: Locale) => {
    const say = speaker({ limits: [], systems: [], ownRules: [], materials: [], ...document }, one);
    const head = entryHead(document.log.at(-1) ?? null, say);
    return paperEdition(
      document,
      say,
      head,
      document.drawings.flatMap((drawn) => [...floorParts(drawn, document, say), ...wallParts(drawn, document, say)]),
    );
  };
  return {
    title: `${m.page_cut({}, { locale })}: ${document.job.name || document.job.id}`,
    editions: [edition(locale), ...more.map(edition)],
    logDescription: '',
  };
}

/** As large as leaves the page one page: pieces at most, their size, the height of the drawing. */
const SIZES = [
  [5, 22, 250],
  [9, 16, 230],
  [14, 12, 210],
] as const;

function floorParts(drawn: RecordDrawing, document: CutDocument, say: Speaker): Part[] {
  const { plan } = drawn;
  if (plan === null) return [];
  const shape = shapeOf(drawn.drawing);
  const height = sizeFor(plan.sheets.pieces.length)[1];
  const picture = plan.stale || !shape.ok ? [] : [sheetsBlock(drawn, plan, shape.value, say, height)];
  return [cutPart(floorCuts(plan), plan.stale, [say.room(drawn.room)], picture, document, say)];
}

function wallParts(drawn: RecordDrawing, document: CutDocument, say: Speaker): Part[] {
  const { room, walls } = drawn;
  if (walls === undefined) return [];
  const names = [say.room(room), m.plan_walls({}, { locale: say.locale })];
  const shape = shapeOf(drawn.drawing);
  const picture = walls.stale || !shape.ok ? [] : [wallSheetsBlock(drawn, walls, shape.value, say)];
  return [cutPart(wallCuts(walls), walls.stale, names, picture, document, say)];
}

function sizeFor(pieces: number): readonly [points: number, height: number] {
  const [, points, height] = SIZES.find(([most]) => pieces <= most) ?? [0, 9, 180];
  return [points, height];
}

function cutPart(cuts: Cuts, isStale: boolean, names: string[], picture: Block[], document: CutDocument, say: Speaker): Part {
  const { locale } = say;
  const [points] = sizeFor(cuts.sheets.pieces.length);
  return {
    name: m.page_cut({}, { locale }),
    blocks: [
      paperTitle(document, say, m.page_cut({}, { locale }), names),
      ...(isStale
        ? [{ block: 'paragraph' as const, strong: true, text: `${m.plan_stale({}, { locale })}. ${m.plan_stale_text({}, { locale })}` }]
        : []),
      ...cutBlocks(cuts, say, { points }),
      { block: 'paragraph', strong: true, text: m.cut_how({}, { locale }) },
      ...picture,
    ],
  };
}
