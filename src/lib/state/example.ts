import type { Writer } from '#lib/record/append.ts';
import { Book } from '#lib/record/book.ts';
import { readEntry } from '#lib/record/entry.ts';
import { MemoryShelf } from '#lib/record/memory-shelf.ts';
import type { JobSource } from './job.svelte.ts';

/** Public addresses of the example's log and pictures, part of the app itself. */
const LOG = '/example/log.jsonl';
const PICTURES = '/example/pictures.json';

/**
 * The example as a job source: its log in a book in memory, so that nothing of it is ever mixed with, counted with, or stored
 * beside real jobs, and what is tried out on it is forgotten on leaving. Null when the app's files cannot be read.
 */
export async function exampleSource(writer: Writer): Promise<JobSource | null> {
  const [log, pictures] = await Promise.all([fetchText(LOG), fetchText(PICTURES)]);
  if (log === null || pictures === null) return null;
  const entries = log
    .split('\n')
    .filter((line) => line !== '')
    .map((line, i) => readEntry(line, `${LOG} line ${i + 1}`))
    .flatMap((read) => (read.ok ? [read.value] : []));
  const book = new Book(new MemoryShelf());
  for (const chain of Map.groupBy(entries, (entry) => entry.body.device).values()) await book.keep(chain, []);
  const files = new Map((JSON.parse(pictures) as { file: string; sha256: string }[]).map((one) => [one.sha256, one.file]));
  return {
    book,
    writer,
    fallbackPicture: async (sha256) => {
      const file = files.get(sha256);
      const answer = file === undefined ? null : await fetch(`/example/${file}`).catch(() => null);
      return answer?.ok === true ? answer.blob() : null;
    },
  };
}

async function fetchText(address: string): Promise<string | null> {
  const answer = await fetch(address).catch(() => null);
  return answer?.ok === true ? answer.text() : null;
}
