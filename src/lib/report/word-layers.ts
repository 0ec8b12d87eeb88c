import { LAYER_OF_STEP } from '../job/systems.ts';
import * as m from '../words/compiled/messages.js';
import type { Block, Cell } from './blocks.ts';
import type { RecordDocument, RecordLayer, RecordOwed, RecordReading, RecordRun } from './record-document.ts';
import { photoUnder } from './photo-value.ts';
import { asSaid, toStep } from './said-text.ts';
import { sentence, type Speaker } from './speaker.ts';
import { spotOfKey } from './spot-of-key.ts';
import { readingPlots } from './word-plots.ts';

/** Layer by layer from the substrate inwards: what it owes, when it was worked on, what was measured. Then what no layer holds. */
export function layerBlocks(document: RecordDocument, say: Speaker): Block[] {
  const { locale } = say;
  const loose = document.readings.filter((reading) => reading.step === null);
  const repairs = document.runs.filter((run) => run.step === 'repair');
  const mended = document.readings.filter((reading) => reading.step === 'repair');
  const blocks = [
    ...document.layers.flatMap((layer, i) => layerBlock(layer, i, document, say)),
    ...worked(say.step('repair'), repairs, mended, say),
    ...worked(m.record_loose_readings({}, { locale }), [], loose, say),
  ];
  return blocks.length === 0 ? [] : [{ block: 'heading', level: 1, text: m.record_part_layers({}, { locale }) }, ...blocks];
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
    ...readingPlots(readings, say),
  ];
}

function worked(heading: string, runs: readonly RecordRun[], readings: readonly RecordReading[], say: Speaker): Block[] {
  if (runs.length === 0 && readings.length === 0) return [];
  return [
    { block: 'heading', level: 2, text: heading },
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
      { head: m.record_col_where({}, { locale }), share: 110 },
      { head: m.record_col_answer({}, { locale }), share: 190 },
    ],
    rows: items.map((item) => [
      standCell(item, say),
      {
        text: say.owed(item.rule),
        strong: item.stand === 'owed',
        ...(item.coat !== null && { under: m.record_coat({ coat: item.coat }, { locale }) }),
      },
      {
        text: [item.surfaces.length === 1 ? say.surfaces(item.surfaces) : say.room(item.room), ...spotOfKey(item.key, say)].join(', '),
      },
      { text: answer(item, document, say) },
    ]),
  };
}

function standCell({ stand }: RecordOwed, { locale }: Speaker): Cell {
  switch (stand) {
    case 'shown':
      return { text: m.record_shown({}, { locale }), glyph: 'shown' };
    case 'owed':
      return { text: m.state_owed({}, { locale }), glyph: 'owed', strong: true };
    case 'not-done':
      return { text: m.record_not_done({}, { locale }), glyph: 'not-done' };
    case 'covered':
      return { text: m.record_covered({}, { locale }), glyph: 'deviation', strong: true };
  }
}

/** What answers an owed item, why it was left out, or, while neither, why it is owed. */
function answer({ rule, stand, shot, reading, notDone }: RecordOwed, { shots, readings }: RecordDocument, say: Speaker): string {
  const { locale } = say;
  const left = notDone === null ? null : say.line(notDone);
  if (left !== null) return `${sentence(leftOutText(left.said, say))} ${sentence(say.entry(left))}`;
  const taken = shots.find((one) => one.id === shot);
  if (taken !== undefined) return m.record_answer_photo({ number: say.photo(taken.id) ?? '', when: say.dayClock(taken.at) }, { locale });
  const read = readings.find((one) => one.id === reading);
  if (read !== undefined && stand === 'shown') return `${sentence(say.value(read))} ${sentence(say.verdict(read.verdict))}`;
  const want = say.wanted(rule);
  return stand === 'shown' && want !== null && 'entry' in want ? sentence(say.kind(want.entry)) : say.reason(rule);
}

function leftOutText(said: NonNullable<ReturnType<Speaker['line']>>['said'], say: Speaker): string {
  return said
    .flatMap((field) =>
      field.field === 'reason' && field.is === 'code'
        ? field.codes.map((code) => say.choice('reason', code))
        : field.field === 'words' && field.is === 'words'
          ? [field.text]
          : [],
    )
    .join('. ');
}

function runTable(runs: readonly RecordRun[], say: Speaker): Block {
  const { locale } = say;
  return {
    block: 'table',
    columns: [
      { head: m.record_col_run({}, { locale }), share: 106 },
      { head: m.record_col_surfaces({}, { locale }), share: 110 },
      { head: m.record_col_start({}, { locale }), share: 112 },
      { head: m.record_col_stop({}, { locale }), share: 112 },
      { head: m.record_col_by({}, { locale }), share: 60 },
    ],
    rows: runs.map((run) => [
      { text: say.step(run.step), strong: true, ...withUnder(runUnder(run, say)) },
      { text: say.surfaces(run.surfaces) },
      { text: say.dayClock(run.start) },
      runStop(run, say),
      { text: say.person(run.by) },
    ]),
  };
}

function withUnder(lines: readonly string[]): Pick<Cell, 'under'> {
  return lines.length === 0 ? {} : { under: lines.join('\n') };
}

function runUnder({ coat, materials }: RecordRun, say: Speaker): string[] {
  return [...(coat === null ? [] : [m.record_coat({ coat }, { locale: say.locale })]), ...materials.map(say.lot)];
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
        { text: `${say.measure(reading.what)}: ${say.value(reading)}`, strong: true, ...withUnder(saidUnder(reading, say)) },
        {
          text: say.verdict(reading.verdict),
          glyph: reading.verdict,
          strong: true,
          ...(reading.open && { under: m.record_in_dispute({}, { locale }) }),
        },
        { text: limit === null ? m.verdict_no_limit({}, { locale }) : `${say.bounds(limit)}\n${say.source(limit)}` },
        { text: whereText(reading, say) },
        { text: takenText(reading, say) },
      ];
    }),
  };
}

function saidUnder({ said, scale, water, photo }: RecordReading, say: Speaker): string[] {
  return [
    ...asSaid(said, say),
    ...toStep(said, say),
    ...(scale == null ? [] : [say.scale(scale)]),
    ...(water == null ? [] : [say.choice('water', water)]),
    ...(photo === undefined ? [] : photoUnder(photo, said.unit, say)),
  ];
}

function whereText({ surface, spot, coat, step }: RecordReading, say: Speaker): string {
  const { locale } = say;
  return [
    say.surface(surface),
    ...(spot === null ? [] : [spot]),
    step === null ? m.record_no_step({}, { locale }) : say.step(step),
    ...(coat === null ? [] : [m.record_coat({ coat }, { locale })]),
  ].join('\n');
}

function takenText({ at, how, by, shot }: RecordReading, say: Speaker): string {
  return [
    say.dayClock(at),
    `${say.how(how)}, ${say.person(by)}`,
    ...(shot !== null && say.photo(shot) !== null ? [say.photoName(shot)] : []),
  ].join('\n');
}
