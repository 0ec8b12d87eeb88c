import { partsOf, shapeOf } from '../job/drawing/shape.ts';
import * as m from '../words/compiled/messages.js';
import type { Block, Cell, Worded } from './blocks.ts';
import { paperEdition, paperTitle } from './paper-frame.ts';
import type { RecordDocument, RecordDrawing, RecordReading, RecordShot } from './record-document.ts';
import { grouped, speaker, type Locale, type Speaker } from './speaker.ts';
import { floorBlock, markBlocks, wallsBlock } from './word-drawing.ts';
import { photosBlock } from './word-photos.ts';

/** Two rows of photos: the page is to be hung inside a cupboard door. */
const PHOTOS = 6;
const FLOOR_PT = 170;

/** For whoever lives there: where nothing may be drilled, what lies behind, how to care for it, what to do when water shows. */
export type OwnerDocument = Pick<
  RecordDocument,
  'rules' | 'built' | 'job' | 'heads' | 'fingerprint' | 'chains' | 'people' | 'rooms' | 'surfaces' | 'materials' | 'systems' | 'drawings'
> & {
  v: 1;
  paper: 'owner';
  /** How high the membrane was measured to reach. */
  readings: RecordReading[];
  /** Taken while the walls were open, and how many more of them there are. */
  shots: RecordShot[];
  moreShots: number;
  log: RecordDocument['log'];
};

/** Null for a job without surfaces: nothing could be said of where not to drill. */
export function ownerOf(record: RecordDocument): OwnerDocument | null {
  const { rules, built, job, heads, fingerprint, chains, people, rooms, surfaces, materials, systems } = record;
  if (surfaces.length === 0) return null;
  const behind = record.shots.filter(({ step }) => step === 'behind');
  const shots = behind.slice(0, PHOTOS);
  const readings = record.readings.filter((one) => !one.open && (one.what === 'upturn' || one.what === 'curb-height' || isBehind(one)));
  const log = record.log.filter(({ kind, known, state }) => kind === 'later-hole' && known && state !== 'withdrawn');
  const shown = new Set([...shots, ...readings, ...log].map(({ id }) => id));
  return {
    v: 1,
    paper: 'owner',
    ...{ rules, built, job, heads, fingerprint, chains, people, rooms, surfaces, materials, systems },
    drawings: record.drawings.map(({ room, entry, at, drawing, takeoff, marks }) => ({
      ...{ room, entry, at, drawing, takeoff },
      marks: marks.filter(({ of }) => shown.has(of)),
      plan: null,
    })),
    readings,
    shots,
    moreShots: behind.length - shots.length,
    log,
  };
}

/** What was measured behind a board, as a distance from a line that stays. */
function isBehind({ what, step }: RecordReading): boolean {
  return what === 'distance' && step === 'behind';
}

export function wordOwner(document: OwnerDocument, locales: readonly [Locale, ...Locale[]]): Worded {
  const [locale, ...more] = locales;
  const edition = (one: Locale) => {
    const say = speaker({ limits: [], ownRules: [], ...document }, one);
    const name = m.record_owner_title({}, { locale: one });
    const head = { label: m.record_fingerprint_root({}, { locale: one }), text: grouped(document.fingerprint, 16) };
    const [drill, care, foot] = [drillBlocks(document, say), careBlocks(say), ownerFoot(say)];
    // A drawing takes the page: care has one of its own then.
    const parts =
      document.drawings.length === 0
        ? [{ name, blocks: [...drill, ...care], foot }]
        : [
            { name, blocks: drill, foot },
            { name: m.record_owner_care({}, { locale: one }), blocks: care },
          ];
    return paperEdition(document, say, head, parts);
  };
  return {
    title: `${m.record_owner_title({}, { locale })}: ${document.job.name || document.job.id}`,
    editions: [edition(locale), ...more.map(edition)],
    logDescription: '',
  };
}

function drillBlocks(document: OwnerDocument, say: Speaker): Block[] {
  const { locale } = say;
  return [
    paperTitle(document, say, m.record_owner_title({}, { locale }), [m.record_owner_keep({}, { locale })]),
    { block: 'heading', level: 2, text: m.record_owner_drill({}, { locale }) },
    { block: 'paragraph', text: m.record_owner_drill_why({}, { locale }) },
    ...document.drawings.flatMap((drawn) => noDrillBlocks(drawn, document, say)),
    surfaceTable(document, say),
    ...behindBlocks(document, say),
  ];
}

function careBlocks(say: Speaker): Block[] {
  const { locale } = say;
  return [
    { block: 'heading', level: 2, text: m.record_owner_care({}, { locale }) },
    numbered([m.owner_care_joints, m.owner_care_grout, m.owner_care_drain, m.owner_care_clean, m.owner_care_fix], say),
    { block: 'heading', level: 2, text: m.record_owner_water({}, { locale }) },
    numbered([m.owner_water_stop, m.owner_water_photo, m.owner_water_call], say),
  ];
}

type Said = (inputs: Record<string, never>, options: { locale: Locale }) => string;

/** Care is common practice, no source: what the maker of tile, sealant or membrane says goes before it. */
function numbered(said: readonly Said[], { locale }: Speaker): Block {
  return {
    block: 'facts',
    labelShare: 0.05,
    rows: said.map((say, i) => ({ label: { text: String(i + 1), strong: true }, text: say({}, { locale }) })),
  };
}

/** Floor and walls hatched: where the watertight layer lies or may lie; how high it was measured to reach; what lies behind. */
function noDrillBlocks(drawn: RecordDrawing, { readings, rooms }: OwnerDocument, say: Speaker): Block[] {
  const shape = shapeOf(drawn.drawing);
  if (!shape.ok) return [];
  const { locale } = say;
  const levels = drawn.marks.flatMap(({ of, wall }) => {
    const read = readings.find((one) => one.id === of && one.what === 'upturn');
    const up = read === undefined || wall === null ? null : partsOf(read.said, shape.value.unit);
    return read === undefined || wall === null || up === null ? [] : [{ wall, up, text: say.value(read) }];
  });
  return [
    ...(rooms.length < 2 ? [] : [{ block: 'paragraph' as const, strong: true, text: say.room(drawn.room) }]),
    {
      block: 'columns',
      leftShare: 0.45,
      left: [floorBlock(drawn, shape.value, say, { isHatched: true, height: FLOOR_PT })],
      right: [wallsBlock(drawn, shape.value, say, { isHatched: true, levels })],
    },
    { block: 'paragraph', text: m.record_owner_hatched({}, { locale }) },
    ...markBlocks(drawn, shape.value, say),
  ];
}

function surfaceTable({ surfaces, readings, shots, log }: OwnerDocument, say: Speaker): Block {
  const { locale } = say;
  return {
    block: 'table',
    columns: [
      { head: m.record_col_surface({}, { locale }), share: 3 },
      { head: m.record_owner_membrane({}, { locale }), share: 3 },
      { head: m.record_owner_height({}, { locale }), share: 3 },
      { head: m.record_owner_behind_photo({}, { locale }), share: 3 },
    ],
    rows: surfaces.map(({ surface, name, place, room, system }): Cell[] => {
      const mine = readings.filter((one) => one.surface === surface);
      const measured = mine.filter((one) => !isBehind(one));
      const taped = mine.filter(isBehind).map((one) => [say.value(one), ...(one.spot === null ? [] : [one.spot])].join(', '));
      const behind = shots.filter((one) => one.surfaces.includes(surface));
      const holes = log.filter(({ said }) =>
        said.some((field) => field.field === 'surfaces' && field.is === 'ids' && field.ids.includes(surface)),
      );
      return [
        { text: name, strong: true, under: [say.place(place), ...(room === null ? [] : [say.room(room)])].join(', ') },
        { text: say.system(system), ...(holes.length > 0 && { under: m.record_owner_holes({ count: holes.length }, { locale }) }) },
        { text: measured.map((one) => `${say.measure(one.what)}: ${say.value(one)}`).join('\n') },
        { text: [...behind.map(({ id }) => say.photoName(id)), ...taped].join('\n') || m.record_owner_no_behind({}, { locale }) },
      ];
    }),
  };
}

function behindBlocks({ shots, moreShots }: OwnerDocument, say: Speaker): Block[] {
  const { locale } = say;
  return [
    { block: 'heading', level: 2, text: m.record_owner_behind({}, { locale }) },
    ...(shots.length === 0
      ? [{ block: 'paragraph' as const, text: m.record_owner_nothing_behind({}, { locale }) }]
      : [photosBlock(shots, 3, say)]),
    ...(moreShots === 0 ? [] : [{ block: 'paragraph' as const, text: m.record_owner_more({ count: moreShots }, { locale }) }]),
  ];
}

function ownerFoot(say: Speaker): Block[] {
  const { locale, everyone } = say;
  return [
    {
      block: 'paragraph',
      text: [
        ...(everyone.length === 0 ? [] : [m.record_owner_made({ names: everyone.join(', ') }, { locale })]),
        m.record_owner_defer({}, { locale }),
      ].join(' '),
    },
  ];
}
