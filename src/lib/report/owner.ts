import * as m from '../words/compiled/messages.js';
import type { Block, Cell, Worded } from './blocks.ts';
import { paperEdition, paperTitle } from './paper-frame.ts';
import type { RecordDocument, RecordReading, RecordShot } from './record-document.ts';
import { grouped, speaker, type Locale, type Speaker } from './speaker.ts';
import { photosBlock } from './word-photos.ts';

/** Two rows of photos: the page is to be hung inside a cupboard door. */
const PHOTOS = 6;

/** For whoever lives there: where nothing may be drilled, what lies behind, how to care for it, what to do when water shows. */
export type OwnerDocument = Pick<
  RecordDocument,
  'rules' | 'built' | 'job' | 'heads' | 'fingerprint' | 'chains' | 'people' | 'rooms' | 'surfaces' | 'materials' | 'systems'
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
  return {
    v: 1,
    paper: 'owner',
    ...{ rules, built, job, heads, fingerprint, chains, people, rooms, surfaces, materials, systems },
    readings: record.readings.filter(({ what, open }) => (what === 'upturn' || what === 'curb-height') && !open),
    shots: behind.slice(0, PHOTOS),
    moreShots: Math.max(0, behind.length - PHOTOS),
    log: record.log.filter(({ kind, known, state }) => kind === 'later-hole' && known && state !== 'withdrawn'),
  };
}

export function wordOwner(document: OwnerDocument, locales: readonly [Locale, ...Locale[]]): Worded {
  const [locale, ...more] = locales;
  const edition = (one: Locale) => {
    const say = speaker({ limits: [], ownRules: [], ...document }, one);
    const name = m.record_owner_title({}, { locale: one });
    const head = { label: m.record_fingerprint_root({}, { locale: one }), text: grouped(document.fingerprint, 16) };
    return paperEdition(document, say, head, [{ name, blocks: ownerBlocks(document, say), foot: ownerFoot(document, say) }]);
  };
  return {
    title: `${m.record_owner_title({}, { locale })}: ${document.job.name || document.job.id}`,
    editions: [edition(locale), ...more.map(edition)],
    logDescription: '',
  };
}

function ownerBlocks(document: OwnerDocument, say: Speaker): Block[] {
  const { locale } = say;
  return [
    paperTitle(document, say, m.record_owner_title({}, { locale }), [m.record_owner_keep({}, { locale })]),
    { block: 'heading', level: 2, text: m.record_owner_drill({}, { locale }) },
    { block: 'paragraph', text: m.record_owner_drill_why({}, { locale }) },
    // The drawing of the room, with pipes, wires, blocking and the membrane's line, goes here: above the table that says the same in words.
    surfaceTable(document, say),
    ...behindBlocks(document, say),
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
      const measured = readings.filter((one) => one.surface === surface);
      const behind = shots.filter((one) => one.surfaces.includes(surface));
      const holes = log.filter(({ said }) =>
        said.some((field) => field.field === 'surfaces' && field.is === 'ids' && field.ids.includes(surface)),
      );
      return [
        { text: name, strong: true, under: [say.place(place), ...(room === null ? [] : [say.room(room)])].join(', ') },
        { text: say.system(system), ...(holes.length > 0 && { under: m.record_owner_holes({ count: holes.length }, { locale }) }) },
        { text: measured.map((one) => `${say.measure(one.what)}: ${say.value(one)}`).join('\n') },
        { text: behind.map(({ id }) => say.photoName(id)).join(', ') || m.record_owner_no_behind({}, { locale }) },
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

function ownerFoot({ people }: OwnerDocument, say: Speaker): Block[] {
  const { locale } = say;
  const names = people.map(({ name }) => name).filter((name) => name !== '');
  return [
    {
      block: 'paragraph',
      text: [
        ...(names.length === 0 ? [] : [m.record_owner_made({ names: names.join(', ') }, { locale })]),
        m.record_owner_defer({}, { locale }),
      ].join(' '),
    },
  ];
}
