/**
 * One question to a worker and its answer, each pair on a message port of its own, so that no answer can reach another asker. `step` is told
 * how far it is. Rejects when the worker throws, or dies (out of memory, killed by the system).
 */
export function ask<Answer>(worker: Worker, question: unknown, step: (code: string) => void = () => undefined): Promise<Answer> {
  const { port1, port2 } = new MessageChannel();
  return new Promise<Answer>((resolve, reject) => {
    const died = (event: Event) => reject(new Error(`worker died: ${'message' in event ? String(event.message) : event.type}`));
    worker.addEventListener('error', died, { once: true });
    port1.onmessage = ({ data }: MessageEvent<Reply>) => {
      if ('step' in data) {
        step(data.step);
        return;
      }
      worker.removeEventListener('error', died);
      port1.close();
      if (data.ok) resolve(data.answer as Answer);
      else reject(new Error(data.message));
    };
    worker.postMessage({ question, port: port2 }, [port2]);
  });
}

/** Asks a worker made for this one question and ends it after the answer: its memory is given back at once. */
export async function askOnce<Answer>(make: () => Worker, question: unknown): Promise<Answer> {
  const worker = make();
  try {
    return await ask<Answer>(worker, question);
  } finally {
    worker.terminate();
  }
}

type Reply = { ok: true; answer: unknown } | { ok: false; message: string } | { step: string };

/** The worker's side: answers each question with what `answer` returns. Questions come from our own pages, so their shape is trusted. */
export function serve<Question, Answer>(answer: (question: Question, step: (code: string) => void) => Promise<Answer>): void {
  self.addEventListener('message', ({ data }: MessageEvent<{ question: Question; port: MessagePort }>) => {
    answer(data.question, (step) => data.port.postMessage({ step } satisfies Reply)).then(
      (value) => data.port.postMessage({ ok: true, answer: value } satisfies Reply, bitmapsIn(value)),
      (error: unknown) => data.port.postMessage({ ok: false, message: String(error) } satisfies Reply),
    );
  });
}

/** Pictures in an answer: they change hands, where a copy of their pixels would hold up the page that takes them. */
function bitmapsIn(value: unknown): ImageBitmap[] {
  if (typeof value !== 'object' || value === null || value instanceof Blob) return [];
  if ('ImageBitmap' in self && value instanceof ImageBitmap) return [value];
  return Object.values(value).flatMap((one) => (typeof one === 'object' && one !== null && !Array.isArray(one) ? bitmapsIn(one) : []));
}
