import { shapeOf } from '../job/drawing/shape.ts';
import * as m from '../words/compiled/messages.js';
import type { Part, Worded } from './blocks.ts';
import { entryHead, paperEdition, paperTitle } from './paper-frame.ts';
import type { RecordDocument, RecordDrawing } from './record-document.ts';
import { speaker, type Locale, type Speaker } from './speaker.ts';
import { cutBlocks } from './word-cut.ts';
import { sheetsBlock } from './word-drawing.ts';

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
  const drawings = record.drawings.filter(({ plan }) => plan !== null).map((drawn) => ({ ...drawn, marks: [] }));
  if (drawings.length === 0) return null;
  const named = new Set(drawings.map(({ plan }) => plan?.entry));
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
      document.drawings.map((drawn) => roomPart(drawn, document, say)),
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

function roomPart(drawn: RecordDrawing, document: CutDocument, say: Speaker): Part {
  const { locale } = say;
  const plan = drawn.plan!;
  const shape = shapeOf(drawn.drawing);
  const [, points, height] = SIZES.find(([most]) => plan.sheets.pieces.length <= most) ?? [0, 9, 180];
  return {
    name: m.page_cut({}, { locale }),
    blocks: [
      paperTitle(document, say, m.page_cut({}, { locale }), [say.room(drawn.room)]),
      ...(plan.stale
        ? [{ block: 'paragraph' as const, strong: true, text: `${m.plan_stale({}, { locale })}. ${m.plan_stale_text({}, { locale })}` }]
        : []),
      ...cutBlocks(plan, say, { points }),
      { block: 'paragraph', strong: true, text: m.cut_how({}, { locale }) },
      ...(plan.stale || !shape.ok ? [] : [sheetsBlock(drawn, plan, shape.value, say, height)]),
    ],
  };
}
