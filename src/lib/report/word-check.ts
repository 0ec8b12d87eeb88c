import type { CautionCode } from '../job/cautions.ts';
import * as m from '../words/compiled/messages.js';
import type { Block } from './blocks.ts';
import type { RecordDocument } from './record-document.ts';
import { grouped, type Speaker } from './speaker.ts';

const CAUTION: Readonly<Record<CautionCode, (inputs: Record<string, never>, options: { locale: 'en' | 'es' }) => string>> = {
  'two-barriers': m.barrier_two,
  'outside-two-barriers': m.barrier_outside_two,
  'outside-unknown': m.barrier_outside_unknown,
  steam: m.barrier_steam,
  'steam-outside': m.barrier_steam_outside,
};

/** What this record does not claim, what to ask about, and how anybody can check it. */
export function checkBlocks(document: RecordDocument, say: Speaker): Block[] {
  const { locale } = say;
  const paragraph = (text: string): Block => ({ block: 'paragraph', text });
  return [
    { block: 'heading', level: 1, text: m.record_part_check({}, { locale }) },
    { block: 'heading', level: 2, text: m.record_cautions({}, { locale }) },
    paragraph(m.caution_defer({}, { locale })),
    ...document.cautions.map(({ code, surface }) => paragraph(`${say.surface(surface)}: ${CAUTION[code]({}, { locale })}`)),
    paragraph(m.record_caution_clock({}, { locale })),
    paragraph(m.record_caution_photos({}, { locale })),
    { block: 'heading', level: 2, text: m.record_how_to_check({}, { locale }) },
    {
      block: 'facts',
      labelShare: 0.05,
      rows: checkSteps(document, say).map((text, i) => ({ label: { text: String(i + 1), strong: true }, text })),
    },
  ];
}

function checkSteps({ left, fingerprint, log }: RecordDocument, { locale }: Speaker): string[] {
  return [
    left.includes('address') ? m.record_step_no_log({}, { locale }) : m.record_step_detach({}, { locale }),
    m.record_step_hash({}, { locale }),
    m.record_step_chain({}, { locale }),
    m.record_step_sign({}, { locale }),
    m.record_step_root({ entries: log.length, fingerprint: grouped(fingerprint) }, { locale }),
    m.record_step_photo({}, { locale }),
    m.record_step_archive({}, { locale }),
    m.record_step_numbers({}, { locale }),
  ];
}
