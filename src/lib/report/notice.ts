import * as m from '../words/compiled/messages.js';
import type { Block, Cell, Edition, Worded } from './blocks.ts';
import { entryHead, paperEdition, paperTitle } from './paper-frame.ts';
import type { RecordDocument, RecordLine, RecordShot, RecordSurface } from './record-document.ts';
import { saidText } from './said-text.ts';
import { grouped, sentence, speaker, type Locale, type Speaker } from './speaker.ts';
import { photosBlock } from './word-photos.ts';

/** One row of photos, so that surveys of ordinary length leave it room on the page. */
const PHOTOS = 4;

/** What was found on a substrate that was not accepted as it stood: the surveys, their surfaces and photos, and who was told. */
export type NoticeDocument = Pick<RecordDocument, 'rules' | 'built' | 'job' | 'heads' | 'chains' | 'people' | 'rooms' | 'materials'> & {
  v: 1;
  paper: 'notice';
  surfaces: RecordSurface[];
  /** Photos of the survey step on these surfaces, and how many more there are. */
  shots: RecordShot[];
  moreShots: number;
  /** The surveys with a reservation or a refusal, in the order of the log. */
  log: RecordLine[];
};

/** The notice of a job from the tree of its record; null where every survey that stands accepted what it saw. */
export function noticeOf(record: RecordDocument): NoticeDocument | null {
  const { rules, built, job, heads, chains, people, rooms } = record;
  const log = record.log.filter((line) => line.kind === 'survey' && line.state !== 'withdrawn' && refused(line));
  if (log.length === 0) return null;
  const concerned = new Set(log.flatMap(surfacesOf));
  const isConcerned = (id: string) => log.some((line) => surfacesOf(line).length === 0) || concerned.has(id);
  const surveyed = record.shots.filter(({ step, surfaces }) => step === 'survey' && (surfaces.length === 0 || surfaces.some(isConcerned)));
  // Photos of the house number and of labels show no condition.
  const shots = surveyed.toSorted((a, b) => Number(a.shows.length > 0) - Number(b.shows.length > 0));
  return {
    v: 1,
    paper: 'notice',
    rules,
    built,
    job,
    heads,
    chains,
    people,
    rooms,
    materials: record.materials.filter(({ material }) => shots.some((shot) => shot.material === material)),
    surfaces: record.surfaces.filter(({ surface }) => isConcerned(surface)),
    shots: shots.slice(0, PHOTOS),
    moreShots: Math.max(0, shots.length - PHOTOS),
    log,
  };
}

function refused({ said }: RecordLine): boolean {
  const result = said.find((one) => one.field === 'result');
  return result?.is === 'code' && !result.codes.includes('accepted');
}

function surfacesOf({ said }: RecordLine): string[] {
  const on = said.find((one) => one.field === 'surfaces');
  return on?.is === 'ids' ? on.ids : [];
}

/** The notice in one language, to be handed to whoever is to mend the substrate or answer for it. */
export function wordNotice(document: NoticeDocument, locales: readonly [Locale, ...Locale[]]): Worded {
  const [locale, ...more] = locales;
  return {
    title: `${m.record_notice_title({}, { locale })}: ${document.job.name || document.job.id}`,
    editions: [edition(document, locale), ...more.map((other) => edition(document, other))],
    logDescription: '',
  };
}

function edition(document: NoticeDocument, locale: Locale): Edition {
  const say = speaker({ limits: [], systems: [], ownRules: [], ...document }, locale);
  const head = entryHead(document.log.at(-1) ?? null, say);
  const name = m.record_part_notice({}, { locale });
  return paperEdition(document, say, head, [{ name, blocks: noticeBlocks(document, say), foot: noticeFoot(document, say) }]);
}

function noticeBlocks(document: NoticeDocument, say: Speaker): Block[] {
  const { locale } = say;
  const { job, log, shots, moreShots } = document;
  const since = document.surfaces.filter(({ accepted }) => accepted?.result === 'accepted');
  return [
    paperTitle(
      document,
      say,
      m.record_notice_title({}, { locale }),
      job.permit === '' ? [] : [`${m.record_label_permit({}, { locale })}: ${job.permit}`],
    ),
    { block: 'paragraph', text: m.record_notice_intro({}, { locale }) },
    ...log.flatMap((line) => surveyBlocks(line, document, say)),
    ...since.map(({ name, accepted }): Block => ({
      block: 'paragraph',
      text: m.record_notice_since({ surfaces: name, when: say.dayClock(accepted!.at) }, { locale }),
    })),
    { block: 'heading', level: 2, text: m.record_notice_photos({}, { locale }) },
    shots.length === 0 ? { block: 'paragraph', text: m.record_notice_no_photos({}, { locale }) } : photosBlock(shots, PHOTOS, say),
    ...(moreShots === 0 ? [] : [{ block: 'paragraph' as const, text: m.record_notice_more({ count: moreShots }, { locale }) }]),
  ];
}

function noticeFoot({ log }: NoticeDocument, say: Speaker): Block[] {
  const named = log.map((line) => `${say.entry(line)}, ${grouped(line.hash)}`).join('; ');
  return [{ block: 'paragraph', text: `${m.record_notice_closing({}, { locale: say.locale })} ${named}.` }];
}

function surveyBlocks(line: RecordLine, { surfaces }: NoticeDocument, say: Speaker): Block[] {
  const { locale } = say;
  const value = (name: string) => {
    const field = line.said.find((one) => one.field === name);
    return field === undefined ? '' : saidText(field, line, say);
  };
  const on = surfacesOf(line);
  const concerned = surfaces.filter(({ surface }) => on.length === 0 || on.includes(surface));
  const row = (label: string, text: string) => ({ label: { text: label, strong: true } as Cell, text });
  return [
    { block: 'heading', level: 2, text: value('result'), aside: say.dayClock(line.at) },
    {
      block: 'facts',
      labelShare: 0.22,
      rows: [
        row(m.record_surfaces({}, { locale }), concerned.map((one) => sentence(surfaceText(one, say))).join(' ')),
        row(say.field('survey', 'found'), value('found')),
        row(say.field('survey', 'drop'), value('drop')),
        row(m.record_notice_told({}, { locale }), value('told') || m.record_notice_nobody({}, { locale })),
        row(m.record_notice_by({}, { locale }), `${say.person(line.by)}, ${say.dayClock(line.at)}`),
      ].filter(({ text }) => text !== ''),
    },
  ];
}

function surfaceText({ name, place, room, substrate }: RecordSurface, say: Speaker): string {
  return [
    name,
    say.place(place),
    ...(room === null ? [] : [say.room(room)]),
    ...(substrate == null ? [] : [say.substrate(substrate)]),
  ].join(', ');
}
