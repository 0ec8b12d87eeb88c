import { samplesOf } from '#lib/device/capture/pcm.ts';
import { hearsOnDevice, listenOnDevice, platformConstructor, type PlatformListening } from '#lib/device/platform-speech.ts';
import { readWav } from '#lib/record/wav.ts';
import type { Heard, Question } from '#lib/voice/hearing.ts';
import type { Language } from '#lib/voice/vocabulary.ts';
import { Recogniser } from '#lib/work/recogniser.ts';

/** What was made of a clip; `second` is what another recogniser heard in the same words, the likeliest first. */
export interface HeardTwice {
  readonly heard: Heard;
  readonly second: readonly string[];
}

/** One phrase being listened to. */
export interface Listening {
  /**
   * To be called with the clip when it is kept, or without when it was not. Null without a clip, and where nothing here understands the
   * language. Rejects when no recogniser answers.
   */
  end(clip: Blob | null): Promise<HeardTwice | null>;
}

/** The languages the bundled recogniser has a model for. */
const BUNDLED: readonly Language[] = ['en'];

/** The recognisers of this phone: the bundled one, and the browser's own where it truly works on the phone. */
export class Ears {
  readonly #platform: ReturnType<typeof platformConstructor>;
  readonly #bundled: Pick<Recogniser, 'warm' | 'hear'>;
  readonly #onDevice = new Map<Language, Promise<boolean>>();

  constructor(bundled: Pick<Recogniser, 'warm' | 'hear'>, platform: ReturnType<typeof platformConstructor>) {
    this.#bundled = bundled;
    this.#platform = platform;
  }

  /** Whether anything here can understand a language. */
  async hears(language: Language): Promise<boolean> {
    return BUNDLED.includes(language) || this.#onPhone(language);
  }

  /** Begins to listen; the engine is read while the person still speaks. */
  begin(question: Question): Listening {
    const { language } = question;
    const bundled = BUNDLED.includes(language);
    if (bundled) this.#bundled.warm(question);
    const constructor = this.#platform;
    const own: Promise<PlatformListening | null> = this.#onPhone(language).then((can) =>
      can && constructor !== null ? listenOnDevice(language, constructor) : null,
    );
    return {
      end: async (clip) => {
        const platform = await own;
        const second = (await platform?.end()) ?? [];
        if (clip === null || (!bundled && platform === null)) return null;
        if (bundled) return { heard: await this.#bundled.hear(await samplesIn(clip), question), second };
        const [words = '', ...alternatives] = second;
        return { heard: { words, alternatives, engine: 'platform', version: navigator.userAgent.slice(0, 150) }, second: [] };
      },
    };
  }

  #onPhone(language: Language): Promise<boolean> {
    const known = this.#onDevice.get(language) ?? hearsOnDevice(language, this.#platform);
    this.#onDevice.set(language, known);
    return known;
  }
}

async function samplesIn(clip: Blob): Promise<Float32Array> {
  const wav = readWav(new Uint8Array(await clip.arrayBuffer()));
  if (!wav.ok) throw new Error(`clip: ${wav.fault.code}`);
  return samplesOf(wav.value.pcm);
}

export const ears = new Ears(new Recogniser(), platformConstructor());
