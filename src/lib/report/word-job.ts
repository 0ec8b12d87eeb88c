import * as m from '../words/compiled/messages.js';
import type { Block } from './blocks.ts';
import type { RecordDocument } from './record-document.ts';
import type { Speaker } from './speaker.ts';

/** What the job is and what it is held to: people, surfaces and their system, limits and where each is written. */
export function jobBlocks({ job, people, surfaces, limits }: RecordDocument, say: Speaker): Block[] {
  const { locale } = say;
  const fact = (label: string, text: string) => ({ label: { text: label, strong: true }, text });
  return [
    { block: 'heading', level: 1, text: m.record_part_layers({}, { locale }) },
    {
      block: 'facts',
      labelShare: 0.16,
      rows: [
        fact(m.record_label_job({}, { locale }), job.name),
        fact(m.record_label_address({}, { locale }), job.address),
        fact(m.record_label_people({}, { locale }), people.map(({ name }) => name).join(', ')),
        fact(m.record_label_number({}, { locale }), job.id),
      ].filter((row) => row.text !== ''),
    },
    { block: 'heading', level: 2, text: m.record_surfaces({}, { locale }) },
    surfaces.length === 0
      ? { block: 'paragraph', text: m.record_no_surfaces({}, { locale }) }
      : {
          block: 'table',
          columns: [
            { head: m.record_col_surface({}, { locale }), share: 3 },
            { head: m.record_col_place({}, { locale }), share: 1 },
            { head: m.record_col_system({}, { locale }), share: 2 },
          ],
          rows: surfaces.map(({ name, place, system }) => [
            { text: name, strong: true },
            { text: say.place(place) },
            { text: say.system(system) },
          ]),
        },
    { block: 'heading', level: 2, text: m.record_limits({}, { locale }) },
    limits.length === 0
      ? { block: 'paragraph', text: m.record_no_limits({}, { locale }) }
      : {
          block: 'table',
          columns: [
            { head: m.record_col_measure({}, { locale }), share: 2 },
            { head: m.record_col_limit({}, { locale }), share: 2 },
            { head: m.record_col_source({}, { locale }), share: 3 },
          ],
          rows: limits.map((limit) => [
            { text: say.measure(limit.what), strong: true },
            { text: say.bounds(limit) },
            { text: say.source(limit) },
          ]),
        },
  ];
}
