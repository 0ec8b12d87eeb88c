import type { Measure } from '#lib/record/kinds/reading.ts';
import type { SpokenDraft } from '#lib/voice/draft.ts';
import type { Question } from '#lib/voice/hearing.ts';
import type { SpokenInto } from '#lib/state/series.svelte.ts';
import { sayings } from '#lib/voice/say.ts';
import { UNIT_WORDS } from '#lib/voice/vocabulary.ts';
import { STEP } from '#lib/words/codes.ts';
import * as m from '#lib/words/compiled/messages.js';
import { readBack, saidText } from '#lib/words/number.ts';
import { padHref } from './address.ts';
import type { Missed, Pending, Spoke } from './spoken.svelte.ts';

type Lang = 'en' | 'es';

/** What a phrase came to, in a few words. */
export function missedText({ why }: Missed): string {
  if (why.startsWith('microphone-')) return m.sound_no_microphone();
  return why === 'no-language' || why === 'engine' ? m.spoken_kept_as_note() : m.spoken_not_understood();
}

/** Whether what was said is kept and can be said again: without a microphone, or with no room, nothing is. */
export function canSayAgain({ why }: Missed): boolean {
  return why !== 'not-kept' && why !== 'no-language' && !why.startsWith('microphone-');
}

/** Why what was said is no value, as a sentence. */
export function unheardText({ why, words }: Missed, question: Question | null): string {
  switch (why) {
    case 'nothing':
      return m.spoken_why_nothing();
    case 'no-unit':
      return m.spoken_why_no_unit({ example: exampleOf(question) });
    case 'other-unit': {
      const units = question?.field?.numbers.map(({ unit }) => UNIT_WORDS[unit][question.language][0]) ?? [];
      return m.spoken_why_other_unit({ words, unit: units.join(', ') });
    }
    case 'two-ways':
      return m.spoken_why_two_ways({ words });
    case 'other-words':
      return m.spoken_why_other_words({ words });
    case 'no-tooth':
      return m.spoken_why_no_tooth({ words });
    case 'other-measure':
      return m.spoken_why_other_measure({ words });
    case 'implausible':
      return m.spoken_why_implausible({ words });
    case 'engine':
      return m.spoken_why_engine();
    case 'no-language':
      return m.spoken_no_language();
    case 'not-kept':
      return m.spoken_why_not_kept();
    case 'microphone-refused':
      return m.fault_microphone_refused();
    case 'microphone-none':
      return m.fault_microphone_none();
    case 'microphone-lost':
      return m.fault_microphone_lost();
  }
}

/** How a value of the field is said, from the middle of what is listened for. */
function exampleOf(question: Question | null): string {
  const numbers = question?.field?.numbers[0];
  const value = numbers?.values[Math.floor(numbers.values.length / 2)];
  if (question === null || numbers === undefined || value === undefined) return '';
  return sayings({ is: 'reading', coat: null, place: null, what: null, value, to: null, unit: numbers.unit }, [], question.language)[0]!;
}

export function asksText(pending: Pending, last: Parameters<typeof saidText>[0] | null, lang: Lang): string {
  if (pending.asks === 'disagree') return m.spoken_ask_disagree();
  if (pending.asks === 'tenfold' && last !== null) return m.spoken_ask_tenfold({ value: saidText(last, lang) });
  return m.spoken_ask_limit();
}

/** What is heard of a phrase by one who does not look: its tone, and a sentence where there is something to say back. */
export function outcomeText(now: Spoke, last: Parameters<typeof saidText>[0] | null, lang: Lang): ReturnType<SpokenInto['outcome']> {
  switch (now.is) {
    case 'idle':
      return { tone: now.kept ? 'saved' : 'heard', back: null };
    case 'pending': {
      const { said, asks } = now.pending;
      if (now.missed !== null) return { tone: 'unheard', back: null };
      return { tone: 'heard', back: [readBack(said, lang), ...(asks === null ? [] : [asksText(now.pending, last, lang)])].join(' ') };
    }
    case 'undone':
      if (now.said === null) return { tone: 'unheard', back: m.spoken_nothing_to_undo() };
      return { tone: 'heard', back: m.spoken_undone({ value: readBack(now.said, lang) }) };
    case 'way-on':
      return { tone: 'heard', back: null };
    default:
      return { tone: 'unheard', back: null };
  }
}

/** Where a spoken command leads: it is offered to be touched, not followed by itself. */
export function wayOn(draft: SpokenDraft, job: string, what: Measure, run: string | null): { word: string; href: string } | null {
  if (draft.is === 'step') {
    const step = STEP[draft.step]();
    return draft.act === 'end'
      ? { word: m.spoken_go_step_end({ step }), href: `/job/${job}` }
      : { word: m.spoken_go_step_begin({ step }), href: `/job/${job}/start` };
  }
  if (draft.is !== 'command') return null;
  if (draft.command === 'timers') return { word: m.spoken_go_timers(), href: `/job/${job}/waits` };
  if (draft.command === 'note') return { word: m.spoken_go_note(), href: padHref(job, 'read', { run, what }).replace('/read?', '/voice?') };
  return null;
}
