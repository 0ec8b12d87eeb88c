/** What this file uses of the browser's own recogniser (Web Speech API); the compiler's library does not know its on-device part. */
interface PlatformResult {
  readonly results: ArrayLike<ArrayLike<{ readonly transcript: string }>>;
}
interface PlatformRecogniser extends EventTarget {
  lang: string;
  continuous: boolean;
  maxAlternatives: number;
  processLocally?: boolean;
  start(): void;
  stop(): void;
  abort(): void;
}
export interface PlatformConstructor {
  new (): PlatformRecogniser;
  available?(wanted: { langs: string[]; processLocally: boolean }): Promise<string>;
}

const TAGS = { en: 'en-US', es: 'es-ES' } as const;
/** Some browsers have the constructor and never begin; some never end. Own choices, no source. */
const START_MS = 1_500;
const END_MS = 4_000;

/** What it heard, the likeliest first. */
export type PlatformHeard = readonly string[];

/** A listening under way, from the microphone itself: this recogniser takes no clip. */
export interface PlatformListening {
  /** Ends it. Empty where it never began, failed, or heard nothing. */
  end(): Promise<PlatformHeard>;
}

/** The browser's recogniser, or null where there is none. */
export function platformConstructor(): PlatformConstructor | null {
  const scope = globalThis as { SpeechRecognition?: PlatformConstructor; webkitSpeechRecognition?: PlatformConstructor };
  return scope.SpeechRecognition ?? scope.webkitSpeechRecognition ?? null;
}

/**
 * Whether the browser recognises this language on the phone itself, without sending sound anywhere. One that cannot say so is one that
 * does not: the others send what is said to a server, which nobody on a client's site agreed to.
 */
export async function hearsOnDevice(language: keyof typeof TAGS, recogniser = platformConstructor()): Promise<boolean> {
  if (recogniser?.available === undefined) return false;
  return recogniser.available({ langs: [TAGS[language]], processLocally: true }).then(
    (answer) => answer === 'available',
    () => false,
  );
}

/** Begins to listen; nothing is said of a failure before `end`. */
export function listenOnDevice(
  language: keyof typeof TAGS,
  Recogniser: PlatformConstructor,
  limits = { START_MS, END_MS },
): PlatformListening {
  const recogniser = new Recogniser();
  Object.assign(recogniser, { lang: TAGS[language], continuous: true, maxAlternatives: 3, processLocally: true });
  const done = Promise.withResolvers<PlatformHeard>();
  let heard: PlatformHeard = [];
  recogniser.addEventListener('result', (event) => (heard = transcripts(event as unknown as PlatformResult)));
  recogniser.addEventListener('error', () => done.resolve([]));
  recogniser.addEventListener('end', () => done.resolve(heard));
  const giveUp = () => {
    done.resolve(heard);
    recogniser.abort();
  };
  const unstarted = setTimeout(giveUp, limits.START_MS);
  recogniser.addEventListener('start', () => clearTimeout(unstarted));
  try {
    recogniser.start();
  } catch {
    done.resolve([]);
  }
  return {
    end: async () => {
      recogniser.stop();
      const unended = setTimeout(giveUp, limits.END_MS);
      const answer = await done.promise;
      clearTimeout(unstarted);
      clearTimeout(unended);
      return answer;
    },
  };
}

/** Each way the whole may have been said: the alternatives of its last part, after the first of the parts before. */
function transcripts({ results }: PlatformResult): PlatformHeard {
  const parts = Array.from(results, (result) => Array.from(result, ({ transcript }) => transcript.trim()));
  const before = parts.slice(0, -1).map(([first = '']) => first);
  return (parts.at(-1) ?? []).map((last) => [...before, last].join(' ').trim()).filter((text) => text !== '');
}
