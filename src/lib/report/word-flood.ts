import { nmText } from '../measure/quantity.ts';
import * as m from '../words/compiled/messages.js';
import type { Block, Cell, Glyph } from './blocks.ts';
import type { RecordAttempt, RecordDocument, RecordReading, RecordRun } from './record-document.ts';
import { saidSentences, saidText } from './said-text.ts';
import { sentence, type Speaker } from './speaker.ts';
import { levelPlot } from './word-plots.ts';

type Row = { label: Cell; text: string };

/** The flood test on the cover: the latest attempt, or, in a log that numbers none, the run and its depths. */
export function floodCover(document: RecordDocument, say: Speaker): Block[] {
  const latest = document.attempts.at(-1);
  if (latest !== undefined)
    return [attemptHeading(latest, say), { block: 'facts', labelShare: 0.22, rows: statements(latest, document, say) }];
  return runBlocks(document, say);
}

/** Every attempt: how it was set up, what was seen, what the levels show, and what was not under water. */
export function floodBlocks(document: RecordDocument, say: Speaker): Block[] {
  const { locale } = say;
  if (document.attempts.length === 0) return [];
  return [
    { block: 'heading', level: 1, text: say.layer('flood'), aside: m.record_flood_note({}, { locale }) },
    ...document.attempts.flatMap((attempt) => [
      attemptHeading(attempt, say),
      { block: 'facts' as const, labelShare: 0.16, rows: [setup(attempt, say), ...statements(attempt, document, say)] },
      ...levelPlot(attempt, document, say),
    ]),
  ];
}

function attemptHeading(attempt: RecordAttempt, say: Speaker): Block {
  return { block: 'heading', level: 2, text: attemptName(attempt, say), aside: say.dayClock(attempt.at) };
}

export function attemptName({ number }: RecordAttempt, { locale }: Speaker): string {
  return m.record_attempt({ number }, { locale });
}

const label = (text: string, glyph?: Glyph): Cell => ({ text, strong: true, ...(glyph && { glyph }) });
const GLYPH = { open: 'flood-open', passed: 'passed', failed: 'failed', void: 'void' } as const;

function setup({ id }: RecordAttempt, say: Speaker): Row {
  const line = say.line(id);
  return { label: label(m.record_flood_setup({}, { locale: say.locale })), text: line === null ? '' : saidSentences(line.said, line, say) };
}

/** Two statements, never merged: a person saw a leak or none; levels fell or did not. */
function statements(attempt: RecordAttempt, document: RecordDocument, say: Speaker): Row[] {
  const { locale } = say;
  const { under, stand, looks, ends } = attempt;
  const result = label(m.record_flood_result({}, { locale }), GLYPH[stand]);
  return [
    ...depthRow(attempt, document, say),
    { label: label(m.flood_seen({}, { locale })), text: seenText(attempt, say) },
    ...looks.map((id) => ({ label: label(''), text: entryText(id, say) })),
    { label: label(m.flood_levels({}, { locale })), text: evidenceText(attempt, document, say) },
    ...levelRow(attempt.test, 'test', document, say),
    ...levelRow(attempt.control, 'control', document, say),
    { label: label(m.record_flood_tested({}, { locale })), text: sentence(say.surfaces(under)) },
    { label: label(m.record_flood_untested({}, { locale })), text: untested(attempt, say) },
    ...(ends.length === 0
      ? [{ label: result, text: m.record_flood_undecided({}, { locale }) }]
      : ends.map((id) => ({ label: result, text: entryText(id, say) }))),
  ];
}

export function depthRow(
  { depth, depthVerdict, ends }: RecordAttempt,
  { readings }: Pick<RecordDocument, 'readings'>,
  say: Speaker,
): Row[] {
  const read = readings.find((one) => one.id === depth);
  if (read === undefined) return [];
  const verdict = depthVerdict === 'no-limit' ? [] : [sentence(say.verdict(depthVerdict))];
  const isLate = ends.some((id) => Date.parse(say.line(id)?.at.utc ?? '') < Date.parse(read.at.utc));
  const said = isLate ? m.record_flood_level_late : m.record_flood_level_at;
  const at = said({ value: say.value(read), when: say.dayClock(read.at) }, { locale: say.locale });
  return [{ label: label(m.record_flood_level({}, { locale: say.locale })), text: [sentence(at), ...verdict].join(' ') }];
}

const SEEN = { 'no-leak': m.flood_seen_no_leak, damp: m.flood_seen_damp, leak: m.flood_seen_leak } as const;

export function seenText({ seen: { worst, before, after, worse } }: RecordAttempt, say: Speaker): string {
  const { locale } = say;
  const ceiling = (code: string) => say.choice('ceiling', code).toLocaleLowerCase(locale);
  return [
    sentence(worst === null ? m.record_flood_no_look({}, { locale }) : SEEN[worst]({}, { locale })),
    after === null
      ? m.flood_ceiling_only_before({ before: ceiling(before) }, { locale })
      : m.flood_ceiling_was({ before: ceiling(before), after: ceiling(after) }, { locale }),
    ...(worse ? [m.flood_ceiling_worse({}, { locale })] : []),
  ].join(' ');
}

const WHY = {
  disturbed: m.flood_why_disturbed,
  'read-once': m.flood_why_read_once,
  'pan-times-differ': m.flood_why_pan_times_differ,
  'no-loss-named': m.flood_why_no_loss_named,
  'may-be-evaporation': m.flood_why_may_be_evaporation,
  'too-coarse': m.flood_why_too_coarse,
} as const;

/** What the levels show: the finding first, then the numbers it rests on. */
export function evidenceText({ levels }: RecordAttempt, { job }: Pick<RecordDocument, 'job'>, say: Speaker): string {
  const { locale } = say;
  if (levels.state !== 'read')
    return levels.state === 'few' ? m.record_flood_few_levels({}, { locale }) : sentence(m.flood_unclear({}, { locale }));
  const { netUm, takeUm, panUm, mayEvaporateUm, finding, aboveLimit, unsettled } = levels;
  const size = (um: number) => lengthText(Math.abs(um), job.units, say);
  const net = netUm !== null && netUm < 0 ? m.flood_rise : m.flood_drop;
  const loss = aboveLimit === null ? m.flood_conclusive_loss : aboveLimit ? m.flood_conclusive_loss_above : m.flood_conclusive_loss_below;
  const found = finding === null ? m.flood_not_conclusive : finding === 'loss' ? loss : m.flood_conclusive_none;
  return [
    sentence(found({}, { locale })),
    ...(unsettled === null ? [] : [WHY[unsettled]({}, { locale })]),
    ...(netUm === null || takeUm === null ? [] : [net({ net: size(netUm), take: size(takeUm) }, { locale })]),
    ...(panUm === null ? [] : [m.flood_drop_pan({ pan: size(panUm) }, { locale })]),
    ...(mayEvaporateUm === null ? [] : [m.flood_drop_no_pan({ evaporation: size(mayEvaporateUm) }, { locale })]),
  ].join(' ');
}

/** To a hundredth of an inch or a tenth of a millimetre. */
function lengthText(lengthUm: number, units: 'in' | 'mm', say: Speaker): string {
  return say.quantity({ value: nmText(lengthUm * 1000, units, units === 'in' ? 2 : 1), to: null, unit: units });
}

function levelRow(ids: readonly string[], water: 'test' | 'control', { readings }: RecordDocument, say: Speaker): Row[] {
  if (ids.length === 0) return [];
  const read = readings.filter((one) => ids.includes(one.id));
  const values = read.map((one) => [say.value(one), ...(one.spot === null ? [] : [one.spot]), say.dayClock(one.at)].join(', '));
  return [{ label: label(''), text: `${say.choice('water', water)}: ${sentence(values.join('; '))}` }];
}

function entryText(id: string, say: Speaker): string {
  const line = say.line(id);
  if (line === null) return id;
  const said = line.said
    .filter(({ field }) => field !== 'attempt')
    .map((field) => `${say.field(line.kind, field.field)}: ${saidText(field, line, say)}`);
  return [...said, `${say.dayClock(line.at)}, ${say.person(line.by)}`].map(sentence).join(' ');
}

/** What lay above the water in the crew's own words, and the other surfaces of the room. */
export function untested({ above, dry }: RecordAttempt, say: Speaker): string {
  const said = [above, ...(dry.length === 0 ? [] : [say.surfaces(dry)])].filter((one) => one !== '');
  return said.length === 0 ? m.record_flood_untested_unsaid({}, { locale: say.locale }) : said.map(sentence).join(' ');
}

/** The flood test in plain facts, where no attempt was opened: whether it is passed is for whoever signs for it. */
function runBlocks(document: RecordDocument, say: Speaker): Block[] {
  const { locale } = say;
  const runs = document.runs.filter((run) => run.step === 'flood-test');
  const depths = document.readings.filter((reading) => reading.what === 'flood-depth');
  const heading: Block = { block: 'heading', level: 2, text: say.layer('flood') };
  if (runs.length === 0 && depths.length === 0) {
    // A job of walls alone has no water to stand.
    if (!document.layers.some(({ layer }) => layer === 'flood')) return [];
    return [heading, { block: 'paragraph', text: m.record_flood_not_begun({}, { locale }) }];
  }
  const shots = document.shots.filter((shot) => shot.step === 'flood-test');
  return [
    heading,
    {
      block: 'facts',
      labelShare: 0.2,
      rows: [
        ...runs.map((run) => ({
          label: label(m.record_flood_held({}, { locale })),
          text: `${sentence(held(run, say))} ${sentence(say.surfaces(run.surfaces))}`,
        })),
        ...depths.map((depth) => ({ label: label(m.record_flood_level({}, { locale })), text: depthText(depth, say) })),
        { label: label(m.record_part_photos({}, { locale })), text: m.record_flood_photos({ count: shots.length }, { locale }) },
      ],
    },
  ];
}

function held({ start, stop }: RecordRun, say: Speaker): string {
  const { locale } = say;
  if (stop === null) return m.record_flood_running({ since: say.dayClock(start) }, { locale });
  const to = stop.about ? m.record_about({ when: say.dayClock(stop) }, { locale }) : say.dayClock(stop);
  const span = m.record_flood_span({ from: say.dayClock(start), to }, { locale });
  const duration = say.duration(start, stop);
  return duration === null ? span : `${span} (${duration})`;
}

function depthText(depth: RecordReading, say: Speaker): string {
  const limit = say.limit(depth.limit);
  const value = m.record_flood_level_at({ value: say.value(depth), when: say.dayClock(depth.at) }, { locale: say.locale });
  return [value, ...(limit === null ? [] : [`${say.bounds(limit)}, ${say.source(limit)}`]), say.verdict(depth.verdict)]
    .map(sentence)
    .join(' ');
}
