import createModule, { type Decoder } from 'soundswallower';
import { SOUND } from '#lib/record/wav.ts';
import { grammarOf, isSoundWord, soundWord } from '#lib/voice/grammar.ts';
import type { Heard, Question } from '#lib/voice/hearing.ts';
import { parse } from '#lib/voice/parse.ts';
import { PRONUNCIATIONS, SOUNDS } from '#lib/voice/pronunciations.ts';
import { UNIT_WORDS, type SpokenUnit } from '#lib/voice/vocabulary.ts';
import { speechLeftOut, type Stretch } from './speech-left-out.ts';

const ENGINE = 'soundswallower';
const VERSION = '0.6.3, en-us 0.8+5prealpha+1-15';

/** How readily a sound of other talk is heard beside the words of the grammar, and how sure of each word the engine must be. Measured: docs/voice.md. */
const OTHER_WEIGHT = 1e-4;
const LEAST_SURE = 0.78;

const ALL_UNITS = Object.keys(UNIT_WORDS) as SpokenUnit[];

/** The bundled recogniser: English, closed phrases, on whatever thread it is called. One clip at a time. */
export class Listener {
  readonly #decoder: Decoder;
  #grammar: string | null = null;

  private constructor(decoder: Decoder) {
    this.#decoder = decoder;
  }

  /**
   * Reads the acoustic model in folder `model`, an address or a path without a slash at its end, and the words we know. `engine` is the
   * address of its compiled part; without it, as in Node, the package finds its own.
   */
  static async open(model: string, engine: string | null = null): Promise<Listener> {
    const { Decoder } = await createModule(engine === null ? {} : { locateFile: () => engine });
    // `lw` raises the chances of the grammar to a power: at its 6.5 the loop of other talk is never entered.
    // Exact zeros between words, as some phones and all made voices give them, upset it: dither lays a floor of noise under them.
    const decoder = new Decoder({ hmm: model, samprate: SOUND.rateHz, dither: true, lw: 1, loglevel: 'FATAL' });
    // The words come from our own table; the engine's 134,000 would be read for nothing.
    decoder.unset_config('dict');
    await decoder.initialize();
    const words = [...PRONUNCIATIONS].flatMap(([word, ways]) =>
      ways.map((way, i): [string, string] => [i === 0 ? word : `${word}(${i + 1})`, way]),
    );
    decoder.add_words(...words, ...SOUNDS.map((sound): [string, string] => [soundWord(sound), sound]));
    return new Listener(decoder);
  }

  /**
   * What was said in a clip of 16,000 samples a second, from -1 to 1. A value is listened for a second time, without itself: what is heard
   * then is the likeliest other reading.
   */
  hear(samples: Float32Array, question: Question): Heard {
    const words = this.#pass(samples, question, null);
    const first = parse(words, { places: question.places, units: ALL_UNITS }, question.language);
    const again = first.ok && first.value.is === 'reading' ? this.#pass(samples, question, first.value) : '';
    return { words, alternatives: again === '' ? [] : [again], engine: ENGINE, version: VERSION };
  }

  #pass(samples: Float32Array, question: Question, except: { value: string; unit: SpokenUnit } | null): string {
    const grammar = grammarOf({
      ...question,
      except,
      other: except === null ? { sounds: SOUNDS, weight: OTHER_WEIGHT } : null,
      knows: (word) => PRONUNCIATIONS.has(word),
    });
    if (grammar === null || samples.length === 0) return '';
    if (grammar !== this.#grammar) this.#decoder.set_grammar(grammar);
    this.#grammar = grammar;
    this.#decoder.start();
    this.#decoder.process_audio(samples, false, true);
    this.#decoder.stop();
    const text = this.#decoder.get_text();
    if (text === '' || text.split(' ').some(isSoundWord)) return '';
    // The other reading is one the engine thought less of: it is shown, not kept.
    if (except !== null) return text;
    const stretches = this.#stretches();
    const unsure = stretches.some(({ word, sure }) => word !== null && sure < LEAST_SURE);
    return unsure || speechLeftOut(samples, stretches) ? '' : text;
  }

  /** Names in brackets are the engine's own, for pauses and for where rules of the grammar meet. */
  #stretches(): (Stretch & { readonly sure: number })[] {
    const { w = [] } = this.#decoder.get_alignment({});
    return w.map(({ t, b, d, p }) => ({ word: /^[a-z]/.test(t) ? t : null, from: b, length: d, sure: p }));
  }
}
