import * as m from '../words/compiled/messages.js';
import type { Cell, Glyph, Part, Worded } from './blocks.ts';
import { entryHead, paperEdition, paperTitle } from './paper-frame.ts';
import type { RecordAttempt, RecordDocument, RecordLine, RecordReading, RecordShot } from './record-document.ts';
import { saidText } from './said-text.ts';
import { grouped, sentence, speaker, type Locale, type Speaker } from './speaker.ts';
import { attemptName, depthRow, evidenceText, seenText, untested } from './word-flood.ts';
import { photosBlock } from './word-photos.ts';

/** What an inspector looks for, in this order: one row of photos. */
const SHOWN = ['plug', 'filled', 'line-after', 'ceiling-before', 'ceiling-after'] as const;
const PHOTOS = 5;

/** The flood test for five minutes of an inspector: how it was set up, how long it stood, what was seen. A page for each place tested. */
export type InspectorDocument = Pick<
  RecordDocument,
  'rules' | 'built' | 'job' | 'heads' | 'chains' | 'people' | 'rooms' | 'surfaces' | 'materials'
> & {
  v: 1;
  paper: 'inspector';
  /** The latest attempt on each place; an earlier one that failed is named by the number of the one after it. */
  attempts: RecordAttempt[];
  readings: RecordReading[];
  shots: RecordShot[];
  /** The entries these rest on: fills, looks, ends, and what an inspector said. */
  log: RecordLine[];
};

/** Null where no water was let in under an attempt of its own. */
export function inspectorOf(record: RecordDocument): InspectorDocument | null {
  const { rules, built, job, heads, chains, people, rooms, surfaces, materials } = record;
  const attempts = record.attempts.filter((one, i) => !record.attempts.slice(i + 1).some((later) => sameWater(one, later)));
  if (attempts.length === 0) return null;
  const ids = new Set(attempts.flatMap(({ id, looks, ends }) => [id, ...looks, ...ends]));
  const floods = record.shots.filter(({ step }) => step === 'flood-test');
  const shots = SHOWN.flatMap((rule) => floods.filter(({ shows }) => shows.includes(rule)).slice(-attempts.length));
  return {
    v: 1,
    paper: 'inspector',
    ...{ rules, built, job, heads, chains, people, rooms, surfaces, materials },
    attempts,
    readings: record.readings.filter(({ id }) => attempts.some(({ depth }) => depth === id)),
    shots: [...new Set(shots)].slice(0, PHOTOS * attempts.length),
    log: record.log.filter((line) => ids.has(line.id) || (line.kind === 'inspection' && line.known && line.state !== 'withdrawn')),
  };
}

/** No surface named stands for all of them. */
function sameWater(one: RecordAttempt, other: RecordAttempt): boolean {
  return one.under.length === 0 || other.under.length === 0 || one.under.some((id) => other.under.includes(id));
}

export function wordInspector(document: InspectorDocument, locales: readonly [Locale, ...Locale[]]): Worded {
  const [locale, ...more] = locales;
  const edition = (one: Locale) => {
    const say = speaker({ limits: [], systems: [], ownRules: [], ...document }, one);
    const head = entryHead(document.log.at(-1) ?? null, say);
    return paperEdition(
      document,
      say,
      head,
      document.attempts.map((attempt) => attemptPart(attempt, document, say)),
    );
  };
  return {
    title: `${m.record_inspector_title({}, { locale })}: ${document.job.name || document.job.id}`,
    editions: [edition(locale), ...more.map(edition)],
    logDescription: '',
  };
}

function attemptPart(attempt: RecordAttempt, document: InspectorDocument, say: Speaker): Part {
  const { locale } = say;
  const { job, log, shots } = document;
  const permit =
    job.permit === '' ? m.record_inspector_no_permit({}, { locale }) : m.record_inspector_permit({ permit: job.permit }, { locale });
  const mine = shots.filter(({ surfaces }) => document.attempts.length === 1 || surfaces.some((id) => attempt.under.includes(id)));
  const named = log
    .filter(({ id }) => id === attempt.id || attempt.ends.includes(id))
    .map((line) => `${say.entry(line)}, ${grouped(line.hash)}`);
  return {
    name: m.record_part_inspector({}, { locale }),
    blocks: [
      paperTitle(document, say, permit, [m.record_inspector_title({}, { locale })]),
      { block: 'heading', level: 2, text: attemptName(attempt, say), aside: say.dayClock(attempt.at) },
      { block: 'facts', labelShare: 0.22, rows: rowsOf(attempt, document, say) },
      ...(mine.length === 0 ? [] : [photosBlock(mine, PHOTOS, say)]),
    ],
    foot: [
      { block: 'paragraph', text: m.record_inspector_card({}, { locale }) },
      { block: 'paragraph', text: `${m.record_inspector_entries({}, { locale })} ${named.join('; ')}.` },
    ],
  };
}

const GLYPH: Readonly<Record<RecordAttempt['stand'], Glyph>> = { open: 'flood-open', passed: 'passed', failed: 'failed', void: 'void' };

/** What was observed first: an inspector's word over the crew's, the crew's over what levels show. */
function rowsOf(attempt: RecordAttempt, document: InspectorDocument, say: Speaker): { label: Cell; text: string }[] {
  const { locale } = say;
  const fill = say.line(attempt.id);
  const row = (label: string, text: string, glyph?: Glyph) => ({ label: { text: label, strong: true, ...(glyph && { glyph }) }, text });
  const said = (name: string) => {
    const field = fill?.said.find((one) => one.field === name);
    return fill === null || field === undefined ? '' : saidText(field, fill, say);
  };
  const fact = (name: string) => row(say.field('flood-fill', name), said(name));
  const inspected = document.log.findLast((line) => line.kind === 'inspection' && isOfFlood(line));
  return [
    ...(inspected === undefined ? [] : [inspectedRow(inspected, say)]),
    row(m.record_flood_result({}, { locale }), resultText(attempt, say), inspected === undefined ? GLYPH[attempt.stand] : undefined),
    row(m.flood_seen({}, { locale }), seenText(attempt, say)),
    fact('plug'),
    fact('line'),
    ...depthRow(attempt, document, say),
    row(m.record_flood_held({}, { locale }), heldText(attempt, say)),
    fact('holdMin'),
    fact('depth'),
    row(m.record_inspector_rule({}, { locale }), said('profile')),
    row(m.record_flood_tested({}, { locale }), sentence(say.surfaces(attempt.under))),
    row(m.record_flood_untested({}, { locale }), untested(attempt, say)),
    row(m.flood_levels({}, { locale }), evidenceText(attempt, document, say)),
  ].filter(({ text }) => text !== '');
}

function isOfFlood({ said }: RecordLine): boolean {
  const what = said.find(({ field }) => field === 'what');
  return what?.is === 'code' && what.codes.includes('flood-test');
}

function inspectedRow(line: RecordLine, say: Speaker): { label: Cell; text: string } {
  const value = (name: string) => {
    const field = line.said.find((one) => one.field === name);
    return field === undefined ? '' : saidText(field, line, say);
  };
  const result = line.said.find(({ field }) => field === 'result');
  const code = result?.is === 'code' ? result.codes[0] : undefined;
  const glyph: Glyph = code === 'passed' ? 'passed' : code === 'failed' ? 'failed' : 'note';
  const text = [value('result'), value('who'), value('day'), value('words')].filter((one) => one !== '').map(sentence);
  return { label: { text: say.kind('inspection'), strong: true, glyph }, text: text.join(' ') };
}

const RESULT = {
  open: m.record_flood_undecided,
  passed: m.record_inspector_passed,
  failed: m.record_inspector_failed,
  void: m.record_inspector_void,
} as const;

function resultText({ stand, ends }: RecordAttempt, say: Speaker): string {
  const end = ends.map((id) => say.line(id)).findLast((line) => line !== null);
  const by = end == null ? [] : [sentence(`${say.person(end.by)}, ${say.dayClock(end.at)}`)];
  return [RESULT[stand]({}, { locale: say.locale }), ...by].join(' ');
}

/** From the fill to the end, which somebody stated; an attempt that nobody ended still stands. */
function heldText({ at, ends }: RecordAttempt, say: Speaker): string {
  const { locale } = say;
  const end = ends.map((id) => say.line(id)).findLast((line) => line !== null);
  if (end == null) return sentence(m.record_flood_running({ since: say.dayClock(at) }, { locale }));
  const span = m.record_flood_span({ from: say.dayClock(at), to: say.dayClock(end.at) }, { locale });
  const duration = say.duration(at, end.at);
  return sentence(duration === null ? span : `${span} (${duration})`);
}
