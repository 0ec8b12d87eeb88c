import type { Heard, Question } from '#lib/voice/hearing.ts';
import { Recogniser } from '#lib/work/recogniser.ts';
import { expect, test } from 'vitest';

const QUESTION: Question = { language: 'en', field: null, places: [], coats: false, commands: ['right'], steps: [] };
const CLIP = new Float32Array(16);
const heard = (words: string): Heard => ({ words, alternatives: [], engine: 'stub', version: '1' });

/** A worker that answers a clip, throws, dies or hangs, in this order; `ended` counts those that were ended. */
function stub(acts: readonly ('answer' | 'throw' | 'die' | 'hang')[]) {
  const left = [...acts];
  const seen = { made: 0, ended: 0 };
  const make = () => {
    seen.made++;
    const name = `worker ${seen.made}`;
    const target = new EventTarget();
    return Object.assign(target, {
      terminate: () => {
        seen.ended++;
      },
      postMessage: ({ question, port }: { question: { samples: Float32Array | null }; port: MessagePort }) => {
        const act = left.shift();
        if (act === 'answer') port.postMessage({ ok: true, answer: question.samples === null ? null : heard(name) });
        if (act === 'throw') port.postMessage({ ok: false, message: 'no model' });
        if (act === 'die') target.dispatchEvent(new Event('error'));
        if (act !== 'hang') setTimeout(() => port.close(), 50);
        else port.close();
      },
    }) as unknown as Worker;
  };
  return { seen, recogniser: new Recogniser(make, 200) };
}

test.each<[acts: Parameters<typeof stub>[0], made: number, ended: number, words: string | null]>([
  [['answer'], 1, 0, 'worker 1'],
  [['hang', 'answer'], 2, 1, 'worker 2'],
  [['die', 'answer'], 2, 1, 'worker 2'],
  [['throw', 'answer'], 2, 1, 'worker 2'],
  [['hang', 'die'], 2, 2, null],
])('a worker that does %j: %i made, %i ended, heard by %s', async (acts, made, ended, words) => {
  const { seen, recogniser } = stub(acts);
  const answer = recogniser.hear(CLIP, QUESTION);
  if (words === null) await expect(answer).rejects.toThrow();
  else expect((await answer).words).toBe(words);
  expect(seen).toEqual({ made, ended });
});

test('made ready beforehand, the same worker hears; one that could not be made ready is no fault of the clip', async () => {
  const ready = stub(['answer', 'answer']);
  ready.recogniser.warm(QUESTION);
  expect((await ready.recogniser.hear(CLIP, QUESTION)).words).toBe('worker 1');
  const broken = stub(['throw', 'answer']);
  broken.recogniser.warm(QUESTION);
  expect((await broken.recogniser.hear(CLIP, QUESTION)).words).toBe('worker 2');
});

test('nothing is made before it is asked for', () => {
  expect(stub([]).seen.made).toBe(0);
});
