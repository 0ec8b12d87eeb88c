import { PROOF_RULES } from '../job/systems.ts';
import * as m from '../words/compiled/messages.js';
import type { Block, Cell, Glyph, SectionLayer } from './blocks.ts';
import type { Moment, OpenPoint, RecordDocument, RecordLayer, RecordReading, RecordRun } from './record-document.ts';
import { grouped, sentence, type Speaker } from './speaker.ts';

/** The cover: what is open before what was done. */
export function coverBlocks(document: RecordDocument, say: Speaker): Block[] {
  const { locale } = say;
  const { job, built } = document;
  return [
    {
      block: 'title',
      text: m.record_title({}, { locale }),
      under: [{ text: job.name || job.id, strong: true }, { text: [job.address, workDays(document, say)].filter(Boolean).join('\n') }],
      aside: [
        m.record_built_at({ day: say.day(built), clock: say.clock(built) }, { locale }),
        m.record_built_by({ person: say.person(built.by) }, { locale }),
        m.record_rules({ version: document.rules }, { locale }),
      ],
    },
    ...standBlocks(document, say),
  ];
}

/** How far the log went, how to check that, and what this record does not claim: always on the cover itself. */
export function coverFoot(document: RecordDocument, say: Speaker): Block[] {
  const { locale } = say;
  return [
    {
      block: 'columns',
      leftShare: 0.48,
      left: headBlocks(document, say),
      right: [
        { block: 'heading', level: 2, text: m.record_check({}, { locale }) },
        { block: 'paragraph', text: m.record_check_how({}, { locale }) },
        { block: 'paragraph', text: m.caution_defer({}, { locale }) },
      ],
    },
  ];
}

/** The section beside what is open, then what was done. A job without surfaces owes nothing yet, and says so. */
function standBlocks(document: RecordDocument, say: Speaker): Block[] {
  if (document.layers.length === 0) return openBlocks(document, say);
  return [
    {
      block: 'columns',
      leftShare: 0.43,
      left: [{ block: 'section', alt: sectionAlt(document, say), layers: sectionLayers(document, say) }],
      right: [...openBlocks(document, say), ...floodBlocks(document, say)],
    },
    { block: 'heading', level: 2, text: m.record_done({}, { locale: say.locale }) },
    doneTable(document, say),
  ];
}

function workDays({ layers }: RecordDocument, say: Speaker): string {
  const moments = layers.flatMap(({ first, last }) => (first === null || last === null ? [] : [first, last]));
  const ordered = moments.sort((a, b) => Date.parse(a.utc) - Date.parse(b.utc));
  const [first] = ordered;
  const last = ordered.at(-1);
  if (first === undefined || last === undefined) return m.record_no_work({}, { locale: say.locale });
  return m.record_work({ days: days(first, last, say) }, { locale: say.locale });
}

function days(first: Moment, last: Moment, say: Speaker): string {
  const [from, to] = [say.day(first), say.day(last)];
  return from === to ? from : m.record_days({ from, to }, { locale: say.locale });
}

function openBlocks(document: RecordDocument, say: Speaker): Block[] {
  const heading: Block = { block: 'heading', level: 2, text: m.record_open({}, { locale: say.locale }) };
  if (document.open.length === 0) {
    const said = document.layers.length === 0 ? m.record_nothing_owed : m.record_nothing_open;
    return [heading, { block: 'paragraph', text: said({}, { locale: say.locale }) }];
  }
  return [heading, { block: 'facts', labelShare: 0.27, rows: document.open.map((point) => openRow(point, document, say)) }];
}

function openRow(point: OpenPoint, document: RecordDocument, say: Speaker): { label: Cell; text: string } {
  const { locale } = say;
  const row = (glyph: Glyph, label: string, text: string) => ({ label: { text: label, strong: true, glyph }, text });
  switch (point.code) {
    case 'outside':
    case 'not-proven': {
      const readings = document.readings.filter((reading) => point.readings.includes(reading.id));
      const what = `${say.measure(point.what)}, ${say.surface(point.surface)}`;
      const limit = say.limit(readings[0]?.limit ?? null);
      const values = readings.map(say.value).join(', ');
      return row(
        point.code,
        say.verdict(point.code),
        `${what}: ${values}. ${limit === null ? '' : sentence(`${say.bounds(limit)}, ${say.source(limit)}`)}`,
      );
    }
    case 'owed':
      return row(
        'owed',
        m.state_owed({}, { locale }),
        [say.layer(point.layer), ...point.items.map(({ rule, surfaces }) => `${say.owed(rule)}: ${say.surfaces(surfaces)}`)]
          .map(sentence)
          .join(' '),
      );
    case 'running': {
      const run = document.runs.find((one) => one.id === point.run);
      const since =
        run === undefined ? point.run : m.record_open_running({ step: say.step(run.step), since: say.dayClock(run.start) }, { locale });
      return row('running', m.state_running({}, { locale }), sentence(since));
    }
    case 'not-begun':
      return row('not-begun', m.state_not_begun({}, { locale }), `${point.layers.map(say.layer).join(', ')}.`);
    case 'not-printed':
      return row('note', m.record_open_not_printed({}, { locale }), m.record_open_not_printed_count({ count: point.count }, { locale }));
    case 'clock-moved':
      return row('note', m.record_open_clock({}, { locale }), m.record_open_clock_count({ count: point.count }, { locale }));
    case 'unsigned':
      return row('note', m.record_open_unsigned({}, { locale }), m.record_open_unsigned_count({ count: point.count }, { locale }));
    case 'newer':
      return row('note', m.kind_unknown({}, { locale }), m.record_open_newer_count({ count: point.count }, { locale }));
    case 'unreadable':
      return row('note', m.record_open_unreadable({}, { locale }), m.record_open_unreadable_count({ count: point.count }, { locale }));
  }
}

/** The flood test in plain facts; whether it is passed is for whoever signs for it, and this version says neither. */
function floodBlocks(document: RecordDocument, say: Speaker): Block[] {
  const { locale } = say;
  const runs = document.runs.filter((run) => run.step === 'flood-test');
  const levels = document.readings.filter((reading) => reading.what === 'flood-depth');
  const heading: Block = { block: 'heading', level: 2, text: say.layer('flood') };
  if (runs.length === 0 && levels.length === 0) {
    return [heading, { block: 'paragraph', text: m.record_flood_not_begun({}, { locale }) }];
  }
  const shots = document.shots.filter((shot) => shot.step === 'flood-test');
  const label = (text: string): Cell => ({ text, strong: true });
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
        ...levels.map((level) => ({ label: label(m.record_flood_level({}, { locale })), text: levelText(level, say) })),
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

function levelText(level: RecordReading, say: Speaker): string {
  const limit = say.limit(level.limit);
  const value = m.record_flood_level_at({ value: say.value(level), when: say.dayClock(level.at) }, { locale: say.locale });
  return [value, ...(limit === null ? [] : [`${say.bounds(limit)}, ${say.source(limit)}`]), say.verdict(level.verdict)]
    .map(sentence)
    .join(' ');
}

function doneTable({ layers, readings }: RecordDocument, say: Speaker): Block {
  const { locale } = say;
  const head = (text: string, share: number) => ({ head: text, share });
  return {
    block: 'table',
    columns: [
      head('', 9),
      head(m.record_col_layer({}, { locale }), 68),
      head(m.record_col_date({}, { locale }), 72),
      head(m.record_col_by({}, { locale }), 60),
      head(m.record_col_proof({}, { locale }), 40),
      head(m.record_col_worst({}, { locale }), 80),
      head(m.record_col_source({}, { locale }), 72),
      head(m.record_col_state({}, { locale }), 76),
    ],
    rows: layers.map((layer, i) => {
      const worst = readings.find((reading) => reading.id === layer.worst);
      const limit = worst === undefined ? null : say.limit(worst.limit);
      return [
        { text: String(i + 1), strong: true },
        { text: say.layer(layer.layer), strong: true },
        { text: layer.first === null || layer.last === null ? '' : days(layer.first, layer.last, say) },
        { text: layer.by.map(say.person).join('\n') },
        { text: m.record_proof_of({ shown: layer.shown, owed: layer.owed }, { locale }) },
        { text: worst === undefined ? '' : [say.value(worst), ...(limit === null ? [] : [say.bounds(limit)])].join('\n') },
        { text: limit === null ? '' : say.source(limit) },
        layerState(layer, worst, say),
      ];
    }),
  };
}

/** One word for a layer: a value that does not stand weighs more than proof still owed, and both more than what was shown. */
export function layerState({ stand }: RecordLayer, worst: RecordReading | undefined, say: Speaker): Cell {
  const { locale } = say;
  if (stand === 'not-begun') return { text: m.state_not_begun({}, { locale }), glyph: 'not-begun', strong: true };
  if (worst?.verdict === 'outside' || worst?.verdict === 'not-proven') {
    return { text: say.verdict(worst.verdict), glyph: worst.verdict, strong: true };
  }
  if (stand === 'owed') return { text: m.state_owed({}, { locale }), glyph: 'owed', strong: true };
  return { text: m.state_shown({}, { locale }), glyph: 'shown', strong: true };
}

function headBlocks({ heads, log, shots }: RecordDocument, say: Speaker): Block[] {
  const { locale } = say;
  return [
    { block: 'heading', level: 2, text: m.record_heads({}, { locale }) },
    {
      block: 'facts',
      labelShare: 0.18,
      rows: heads.map((head) => ({ label: { text: say.entry(head), strong: true }, text: grouped(head.hash) })),
    },
    { block: 'paragraph', text: m.record_heads_note({ entries: log.length, photos: shots.length }, { locale }) },
  ];
}

function sectionLayers({ layers, surfaces }: RecordDocument, say: Speaker): SectionLayer[] {
  const places = new Map(surfaces.map((one) => [one.surface, one.place]));
  return layers.map(({ layer, stand, items }) => ({
    layer,
    name: say.layer(layer),
    begun: stand !== 'not-begun',
    // In the order of the rules, so that a gap keeps its place as its neighbours fill.
    cells: items
      .toSorted((a, b) => ruleIndex(a.rule) - ruleIndex(b.rule))
      .map(({ surface, shown }) => ({ leg: places.get(surface) === 'wall' ? ('wall' as const) : ('floor' as const), shown })),
  }));
}

function ruleIndex(id: string): number {
  return PROOF_RULES.findIndex((rule) => rule.id === id);
}

function sectionAlt({ layers }: RecordDocument, say: Speaker): string {
  const { locale } = say;
  const said = layers.map(({ layer, shown, owed }, i) => `${i + 1} ${say.layer(layer)}, ${m.record_proof_of({ shown, owed }, { locale })}`);
  return m.record_section_alt({ layers: said.join('; ') }, { locale });
}
