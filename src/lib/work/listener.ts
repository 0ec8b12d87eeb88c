import createModule, { type Decoder, type SoundSwallowerModule } from 'soundswallower';
import { SOUND } from '#lib/record/wav.ts';
import { grammarOf, isSoundWord, soundWord, type Expected } from '#lib/voice/grammar.ts';
import type { Heard, Question } from '#lib/voice/hearing.ts';
import type { SpokenReading } from '#lib/voice/draft.ts';
import { parse } from '#lib/voice/parse.ts';
import { PRONUNCIATIONS, SOUNDS } from '#lib/voice/pronunciations.ts';
import { UNIT_WORDS, type SpokenUnit } from '#lib/voice/vocabulary.ts';
import { levelRangeDb } from './level-range.ts';
import { speechLeftOut, type Stretch } from './speech-left-out.ts';

const ENGINE = 'soundswallower';
const VERSION = '0.6.3, en-us 0.8+5prealpha+1-15';

/** How readily a sound of other talk is heard beside the words of the grammar, and how sure of each word the engine must be. Measured: docs/voice.md. */
const OTHER_WEIGHT = 1e-4;
const LEAST_SURE = 0.71;
/**
 * A value is refused that is not so much likelier than the third to come into question: of the three only two can be shown. In the engine's
 * logarithms (base 1.0001, in steps of 1024). Measured: docs/voice.md.
 */
const LEAST_AHEAD = 250;
/** The same in a loud room, where a wrong value is as far ahead as a right one elsewhere. */
const LEAST_AHEAD_IN_NOISE = 600;
/** A room is loud where the speech stands less than this over it. Made clips of 20 dB had 25 and more, of 10 dB 20 and less: docs/voice.md. */
const LOUD_BELOW_DB = 22;

const ALL_UNITS = Object.keys(UNIT_WORDS) as SpokenUnit[];

/** The bundled recogniser: English, closed phrases, on whatever thread it is called. One clip at a time. */
export class Listener {
  readonly #decoder: Decoder;
  readonly #scores: Scores;
  #grammar: string | null = null;

  private constructor(decoder: Decoder, scores: Scores) {
    this.#decoder = decoder;
    this.#scores = scores;
  }

  /**
   * Reads the acoustic model in folder `model`, an address or a path without a slash at its end, and the words we know. `engine` is the
   * address of its compiled part; without it, as in Node, the package finds its own.
   */
  static async open(model: string, engine: string | null = null): Promise<Listener> {
    const module = await createModule(engine === null ? {} : { locateFile: () => engine });
    // `lw` raises the chances of the grammar to a power: at its 6.5 the loop of other talk is never entered.
    // Exact zeros between words, as some phones and all made voices give them, upset it: dither lays a floor of noise under them.
    // `compallsen` computes the model's every sound, and not only those the grammar may come to next: else the best of them, from which
    // scores are counted, is another in each grammar, and what two grammars hear cannot be compared.
    const decoder = new module.Decoder({
      hmm: model,
      samprate: SOUND.rateHz,
      dither: true,
      lw: 1,
      compallsen: true,
      // Of the dither: the same clip is heard alike every time.
      seed: 1,
      loglevel: 'FATAL',
    });
    // The words come from our own table; the engine's 134,000 would be read for nothing.
    decoder.unset_config('dict');
    await decoder.initialize();
    const words = [...PRONUNCIATIONS].flatMap(([word, ways]) =>
      ways.map((way, i): [string, string] => [i === 0 ? word : `${word}(${i + 1})`, way]),
    );
    decoder.add_words(...words, ...SOUNDS.map((sound): [string, string] => [soundWord(sound), sound]));
    return new Listener(decoder, new Scores(module, decoder));
  }

  /**
   * What was said in a clip of 16,000 samples a second, from -1 to 1. A value is listened for a second time, without itself: what is heard
   * then is the likeliest other reading. Where that comes near, it is listened for a third time, without both.
   */
  hear(samples: Float32Array, question: Question): Heard {
    const first = this.#pass(samples, question, []);
    const value = valueOf(first, question);
    const nothing: Heard = { words: '', alternatives: [], engine: ENGINE, version: VERSION };
    if (first === null || !this.#isSure(samples)) return nothing;
    // A value in another unit is refused for it.
    if (value === null || !question.field!.numbers.some(({ unit }) => unit === value.unit)) return { ...nothing, words: first.words };
    const second = this.#pass(samples, question, [value]);
    const other = valueOf(second, question);
    if (second === null || other === null) return { ...nothing, words: first.words };
    const least = levelRangeDb(samples) < LOUD_BELOW_DB ? LEAST_AHEAD_IN_NOISE : LEAST_AHEAD;
    if (first.score - second.score < least) {
      const third = this.#pass(samples, question, [value, other]);
      // Where none is heard, the second tells how near others come.
      const ahead = third === null ? Infinity : first.score - third.score;
      if (ahead < least || (third === null && first.score - second.score < LEAST_AHEAD)) return nothing;
    }
    return { ...nothing, words: first.words, alternatives: [second.words] };
  }

  /** The words that come nearest, or null where other talk comes nearer or nothing was heard. */
  #pass(samples: Float32Array, question: Question, except: Expected['except']): { words: string; score: number } | null {
    const grammar = grammarOf({
      ...question,
      except,
      // The other readings are those the engine thought less of: they are shown, not kept.
      other: except.length === 0 ? { sounds: SOUNDS, weight: OTHER_WEIGHT } : null,
      knows: (word) => PRONUNCIATIONS.has(word),
    });
    if (grammar === null || samples.length === 0) return null;
    if (grammar !== this.#grammar) this.#decoder.set_grammar(grammar);
    this.#grammar = grammar;
    this.#decoder.start();
    this.#decoder.process_audio(samples, false, true);
    this.#decoder.stop();
    const words = this.#decoder.get_text();
    return words === '' || words.split(' ').some(isSoundWord) ? null : { words, score: this.#scores.last() };
  }

  /** Of the words just heard. */
  #isSure(samples: Float32Array): boolean {
    const stretches = this.#stretches();
    return stretches.every(({ word, sure }) => word === null || sure >= LEAST_SURE) && !speechLeftOut(samples, stretches);
  }

  /** Names in brackets are the engine's own, for pauses and for where rules of the grammar meet. */
  #stretches(): (Stretch & { readonly sure: number })[] {
    const { w = [] } = this.#decoder.get_alignment({});
    return w.map(({ t, b, d, p }) => ({ word: /^[a-z]/.test(t) ? t : null, from: b, length: d, sure: p }));
  }
}

/** The value in what was heard, in any unit; null where it is none. */
function valueOf(heard: { readonly words: string } | null, question: Question): SpokenReading | null {
  const read = parse(heard?.words ?? '', { places: question.places, units: ALL_UNITS }, question.language);
  return read.ok && read.value.is === 'reading' ? read.value : null;
}

/** How likely the words last heard are, which the engine tells and its package leaves out: its memory is read for it. */
class Scores {
  readonly #engine: Engine;
  readonly #decoder: number;
  readonly #at: number;

  constructor(module: SoundSwallowerModule, decoder: Decoder) {
    this.#engine = module as Engine;
    this.#decoder = (decoder as Decoder & { readonly cdecoder: number }).cdecoder;
    this.#at = module._malloc(Int32Array.BYTES_PER_ELEMENT);
  }

  last(): number {
    this.#engine._decoder_hyp(this.#decoder, this.#at);
    return this.#engine.HEAP32[this.#at / Int32Array.BYTES_PER_ELEMENT]!;
  }
}
type Engine = SoundSwallowerModule & { _decoder_hyp(decoder: number, score: number): number };
