import { BAND_ASKS, LIQUID_ASKS, MORTAR_ASKS } from '../job/drawing/quantities.ts';
import type { Ask } from '../job/work-out/ask.ts';
import { MIX_ASK, MIX_FOUND, MIX_PART } from '../words/mixing.ts';
import { numberText, quantityText, unitText } from '../words/number.ts';
import * as m from '../words/compiled/messages.js';
import type { Block } from './blocks.ts';
import type { RecordDocument, RecordMixing } from './record-document.ts';
import { sentence, type Locale, type Speaker } from './speaker.ts';

type CardPart = RecordMixing['parts'][number];

const TITLE = { mortar: m.mix_mortar, liquid: m.mix_liquid, band: m.mix_band } as const;
const ASKS: Readonly<Record<string, Ask>> = { ...MORTAR_ASKS, ...LIQUID_ASKS, ...BAND_ASKS };

type Words = Readonly<Record<string, (inputs: Record<string, never>, options: { locale: Locale }) => string>>;
const word = (words: Words, code: string, locale: Locale) => (Object.hasOwn(words, code) ? words[code]!({}, { locale }) : code);

/** The mixing cards that were printed last, in the record. */
export function mixingBlocks({ mixing, job }: Pick<RecordDocument, 'mixing' | 'job'>, say: Speaker): Block[] {
  const { locale } = say;
  return mixing.flatMap((card): Block[] => [
    { block: 'heading', level: 2, text: m.record_mixing({ room: say.room(card.room) }, { locale }) },
    ...cardBlocks(card, job.units, say),
    { block: 'paragraph', text: m.mix_note({}, { locale }) },
  ]);
}

/** What comes out, part by part, and under it what it was reckoned from. */
export function cardBlocks({ parts }: RecordMixing, units: 'in' | 'mm', say: Speaker, points?: number): Block[] {
  return parts.flatMap((one): Block[] => [
    {
      block: 'table',
      ...(points !== undefined && { points }),
      columns: [
        { head: partTitle(one, say), share: 1 },
        { head: '', share: 1 },
      ],
      rows: one.found.map((found) => [{ text: word(MIX_FOUND, found.what, say.locale) }, { text: foundText(found, say), strong: true }]),
    },
    { block: 'paragraph', text: one.asked.map((asked) => askedText(asked, units, say)).join(' ') },
  ]);
}

function partTitle({ part, on }: CardPart, { locale }: Speaker): string {
  const title = TITLE[part]({}, { locale });
  return on.length === 0 ? title : `${title}: ${on.map((one) => MIX_PART[one]({}, { locale })).join(', ')}`;
}

function foundText({ low, high, unit }: CardPart['found'][number], { locale }: Speaker): string {
  return high === null
    ? quantityText({ value: low, unit }, locale)
    : m.work_out_range({ low: numberText(low, unit, locale), high: quantityText({ value: high, unit }, locale) }, { locale });
}

/** A bare number is in the unit its field shows; one with a unit is as it was typed. */
function askedText({ field, text }: CardPart['asked'][number], units: 'in' | 'mm', { locale }: Speaker): string {
  const ask = ASKS[field];
  const unit = ask !== undefined && 'si' in ask && /^[\d.,\s/-]+$/.test(text) ? ` ${unitText(ask[units], locale)}` : '';
  return sentence(`${word(MIX_ASK, field, locale)}: ${text}${unit}`);
}
