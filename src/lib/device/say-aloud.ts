/** A voice that hangs must not hold up the work: longer than any value takes to be said. Own choice, no source. */
const LONGEST_MS = 8_000;
const TAGS = { en: 'en-US', es: 'es-ES' } as const;

/** Says a sentence by the platform's voice and resolves when it is over; at once where there is none. */
export function sayAloud(text: string, language: keyof typeof TAGS): Promise<void> {
  const { speechSynthesis } = globalThis as { speechSynthesis?: SpeechSynthesis };
  if (speechSynthesis === undefined || speechSynthesis.getVoices().length === 0) return Promise.resolve();
  return new Promise((resolve) => {
    const sentence = new SpeechSynthesisUtterance(text);
    sentence.lang = TAGS[language];
    const late = setTimeout(() => {
      speechSynthesis.cancel();
      resolve();
    }, LONGEST_MS);
    sentence.onend = sentence.onerror = () => {
      clearTimeout(late);
      resolve();
    };
    speechSynthesis.speak(sentence);
  });
}
