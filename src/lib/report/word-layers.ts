import { LAYER_OF_STEP } from '../job/systems.ts';
import * as m from '../words/compiled/messages.js';
import type { Block, Cell } from './blocks.ts';
import type { RecordDocument, RecordLayer, RecordOwed, RecordReading, RecordRun } from './record-document.ts';
import { sentence, type Speaker } from './speaker.ts';

/** Layer by layer from the substrate inwards: what it owes, when it was worked on, what was measured. */
export function layerBlocks(document: RecordDocument, say: Speaker): Block[] {
  const { locale } = say;
  const loose = document.readings.filter((reading) => reading.step === null);
  return [
    ...document.layers.flatMap((layer, i) => layerBlock(layer, i, document, say)),
    ...(loose.length === 0
      ? []
      : [{ block: 'heading' as const, level: 2 as const, text: m.record_loose_readings({}, { locale }) }, readingTable(loose, say)]),
  ];
}

function layerBlock(layer: RecordLayer, i: number, document: RecordDocument, say: Speaker): Block[] {
  const { locale } = say;
  const runs = document.runs.filter((run) => LAYER_OF_STEP[run.step] === layer.layer);
  const readings = document.readings.filter((reading) => reading.step !== null && LAYER_OF_STEP[reading.step] === layer.layer);
  return [
    {
      block: 'heading',
      level: 2,
      text: `${i + 1} ${say.layer(layer.layer)}`,
      aside: m.record_proof_of({ shown: layer.shown, owed: layer.owed }, { locale }),
    },
    ...(layer.items.length === 0 ? [] : [owedTable(layer, document, say)]),
    ...(runs.length === 0 ? [] : [runTable(runs, say)]),
    ...(readings.length === 0 ? [] : [readingTable(readings, say)]),
  ];
}

function owedTable({ items }: RecordLayer, document: RecordDocument, say: Speaker): Block {
  const { locale } = say;
  return {
    block: 'table',
    columns: [
      { head: m.record_col_state({}, { locale }), share: 80 },
      { head: m.record_col_owed({}, { locale }), share: 150 },
      { head: m.record_col_surface({}, { locale }), share: 110 },
      { head: m.record_col_answer({}, { locale }), share: 190 },
    ],
    rows: items.map((item) => [
      item.shown
        ? { text: m.record_shown({}, { locale }), glyph: 'shown' }
        : { text: m.state_owed({}, { locale }), glyph: 'owed', strong: true },
      { text: say.owed(item.rule), strong: !item.shown },
      { text: say.surface(item.surface) },
      { text: answer(item, document, say) },
    ]),
  };
}

/** What answers an owed item, or, while nothing does, why it is owed. */
function answer({ rule, shot, reading }: RecordOwed, { shots, readings }: RecordDocument, say: Speaker): string {
  const taken = shots.find((one) => one.id === shot);
  if (taken !== undefined)
    return m.record_answer_photo({ number: say.photo(taken.id), when: say.dayClock(taken.at) }, { locale: say.locale });
  const read = readings.find((one) => one.id === reading);
  return read === undefined ? say.reason(rule) : `${sentence(say.value(read))} ${sentence(say.verdict(read.verdict))}`;
}

function runTable(runs: readonly RecordRun[], say: Speaker): Block {
  const { locale } = say;
  return {
    block: 'table',
    columns: [
      { head: m.record_col_run({}, { locale }), share: 96 },
      { head: m.record_col_surfaces({}, { locale }), share: 110 },
      { head: m.record_col_start({}, { locale }), share: 114 },
      { head: m.record_col_stop({}, { locale }), share: 114 },
      { head: m.record_col_by({}, { locale }), share: 62 },
    ],
    rows: runs.map((run) => [
      { text: say.step(run.step), strong: true },
      { text: say.surfaces(run.surfaces) },
      { text: say.dayClock(run.start) },
      runStop(run, say),
      { text: say.person(run.by) },
    ]),
  };
}

function runStop({ start, stop }: RecordRun, say: Speaker): Cell {
  const { locale } = say;
  if (stop === null) return { text: m.state_running({}, { locale }), glyph: 'running', strong: true };
  const when = stop.about ? m.record_about({ when: say.dayClock(stop) }, { locale }) : say.dayClock(stop);
  const duration = say.duration(start, stop);
  return { text: duration === null ? when : `${when} (${duration})` };
}

function readingTable(readings: readonly RecordReading[], say: Speaker): Block {
  const { locale } = say;
  return {
    block: 'table',
    columns: [
      { head: m.record_col_reading({}, { locale }), share: 112 },
      { head: m.record_col_verdict({}, { locale }), share: 74 },
      { head: m.record_col_limit_source({}, { locale }), share: 108 },
      { head: m.record_col_where({}, { locale }), share: 88 },
      { head: m.record_col_taken({}, { locale }), share: 114 },
    ],
    rows: readings.map((reading) => {
      const limit = say.limit(reading.limit);
      return [
        {
          text: `${say.measure(reading.what)}: ${say.value(reading)}`,
          strong: true,
          under: m.record_as_said({ text: reading.said.text }, { locale }),
        },
        { text: say.verdict(reading.verdict), glyph: reading.verdict, strong: true },
        { text: limit === null ? m.verdict_no_limit({}, { locale }) : `${say.bounds(limit)}\n${say.source(limit)}` },
        { text: `${say.surface(reading.surface)}\n${reading.step === null ? m.record_no_step({}, { locale }) : say.step(reading.step)}` },
        { text: `${say.dayClock(reading.at)}\n${say.how(reading.how)}, ${say.person(reading.by)}` },
      ];
    }),
  };
}
