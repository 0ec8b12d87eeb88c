import { openIdbShelf } from '#lib/device/store/idb-shelf.ts';
import { featuresNear } from '#lib/job/behind/nearest.ts';
import { strataAt, type TouchedPlace } from '#lib/job/behind/strata.ts';
import { shapeOf } from '#lib/job/drawing/shape.ts';
import { cardOf, type JobCard } from '#lib/job/find/card.ts';
import { cardKey, FIND_VERSION, inKey, lateKey, MADE, shortKey, wordKey } from '#lib/job/find/rows.ts';
import { findJobs, newestIds } from '#lib/job/find/search.ts';
import { shortened } from '#lib/job/find/terms.ts';
import { project } from '#lib/job/project.ts';
import type { JobState } from '#lib/job/state.ts';
import { Book, type Head } from '#lib/record/book.ts';
import type { Key, Shelf } from '#lib/record/shelf.ts';
import { random } from '../sim/random.ts';
import { bookJob, misspelt, type BookJob } from '../sim/ten-years.ts';

/** Jobs that the first page lists. */
const HOME_LISTS = 20;

const shelfOf = (jobs: number) => openIdbShelf(`book-${jobs}`, { superseded: () => undefined });
type Row = readonly [key: Key, value: unknown];

/** Rows that find the jobs of these cards: what `keepCard` leaves when it is given one after the other (tests/unit/job/find/plant.test.ts). */
export function findRows(cards: readonly JobCard[]): Row[] {
  const counts = new Map<string, number>();
  for (const { words } of cards) for (const word of Object.keys(words)) counts.set(word, (counts.get(word) ?? 0) + 1);
  return [
    ...cards.flatMap((card): Row[] => [
      [cardKey(card.job), card],
      [lateKey(card), card.job],
      ...Object.entries(card.words).map(([word, bits]): Row => [inKey(word, card), [card.job, bits]]),
    ]),
    ...[...counts].flatMap(([word, n]): Row[] => [
      [wordKey(word), [word, n]],
      ...[...shortened(word)].map((short): Row => [shortKey(short, word), word]),
    ]),
  ];
}

/** Of a book larger than this only so many logs are written: the others would lie in the store and never be asked for. */
const LOGS = 2_000;

/** Writes a book of so many jobs, with the rows that find them, as the app would have left it, and answers how many entries it counts. */
export async function plant(jobs: number): Promise<number> {
  // The store is made by the shelf; its rows are put in past it, as nothing waits for them.
  await new Book(shelfOf(jobs)).held();
  const db = await opened(`book-${jobs}`);
  const cards: JobCard[] = [];
  let entries = 0;
  for (let from = 0; from < jobs; from += 200) {
    const some = Array.from({ length: Math.min(200, jobs - from) }, (_, i) => bookJob(from + i, jobs));
    cards.push(...some.map((one) => cardOf(project(one.entries).state)));
    entries += some.reduce((sum, one) => sum + one.entries.length, 0);
    const logs = some.filter((_, i) => isWritten(from + i, jobs));
    await putAll(
      db,
      'entries',
      logs.flatMap((one) => one.entries.map(({ raw, body }): Row => [[body.job, body.device, body.seq], raw])),
    );
    await putAll(
      db,
      'heads',
      some.map((one): Row => [[one.job, 'phone'], headOf(one)]),
    );
  }
  await putAll(db, 'caches', [...findRows(cards), [MADE, FIND_VERSION]]);
  await putAll(db, 'meta', [[['held'], { entries, devices: ['phone'] }]]);
  db.close();
  return entries;
}

/** Whether the log of the n-th job is written: all, or evenly so many of them, the newest among them. */
function isWritten(n: number, jobs: number): boolean {
  return jobs <= LOGS || n % (jobs / LOGS) === 0 || n >= jobs - HOME_LISTS;
}

function opened(name: string): Promise<IDBDatabase> {
  const request = indexedDB.open(name);
  return new Promise((resolve, reject) => {
    request.onsuccess = () => resolve(request.result);
    request.onerror = () => reject(request.error ?? new Error(name));
  });
}

async function putAll(db: IDBDatabase, store: string, rows: readonly Row[]): Promise<void> {
  for (let from = 0; from < rows.length; from += 10_000) {
    const tx = db.transaction(store, 'readwrite', { durability: 'relaxed' });
    for (const [key, value] of rows.slice(from, from + 10_000)) tx.objectStore(store).put(value, [...key]);
    await new Promise<void>((resolve, reject) => {
      tx.oncomplete = () => resolve();
      tx.onabort = () => reject(tx.error ?? new Error(store));
    });
  }
}

function headOf({ job, entries }: BookJob): Head {
  const { body, hash } = entries.at(-1)!;
  return { job, device: body.device, seq: body.seq, hash, times: body.times };
}

async function timed(work: () => unknown): Promise<number> {
  const from = performance.now();
  await work();
  return performance.now() - from;
}

/** What the first page does before it shows its list: open the store, see whether anything is lost, read the jobs written to last. */
export async function coldStart(jobs: number): Promise<number> {
  return timed(async () => {
    const shelf = shelfOf(jobs);
    const book = new Book(shelf);
    await book.held();
    const ids = await shelf.read(['caches'], (tx) => newestIds(tx, HOME_LISTS));
    const opened = await Promise.all(ids.map((id) => open(book, id)));
    if (opened.length !== Math.min(HOME_LISTS, jobs) || opened.some(({ name }) => name === '')) throw new Error('not the newest jobs');
  });
}

async function open(book: Book, job: string): Promise<JobState> {
  const { entries } = await book.log(job);
  return project(entries).state;
}

export interface BookTimes {
  /** A question as it is typed, at each second letter. */
  readonly search: number[];
  readonly open: number[];
  readonly spot: number[];
}

/** Milliseconds of each over a book that was planted, the same jobs and questions in every size. */
export async function measureBook(jobs: number, turns: number): Promise<BookTimes> {
  const shelf: Shelf = shelfOf(jobs);
  const book = new Book(shelf);
  const draw = random(7);
  const times: BookTimes = { search: [], open: [], spot: [] };
  for (let turn = -2; turn < turns; turn++) {
    // One whose log is written, whatever the size.
    const one = bookJob(Math.floor(draw() * 200) * (jobs / 200), jobs);
    const [house, street] = one.address.split(' ') as [string, string];
    for (const question of [`${house} ${misspelt(street.toLowerCase(), draw)}`, one.lot, misspelt('plumber', draw)]) {
      for (let typed = 2; typed <= question.length; typed += 2) {
        const ms = await timed(() => shelf.read(['caches'], (tx) => findJobs(tx, question.slice(0, typed))));
        if (turn >= 0) times.search.push(ms);
      }
    }
    const found = await shelf.read(['caches'], (tx) => findJobs(tx, `${house} ${street}`));
    if (!found.jobs.some(({ card }) => card.job === one.job)) throw new Error(`${one.address} was not found`);
    let state: JobState | null = null;
    const opening = await timed(async () => (state = await open(book, one.job)));
    const at: TouchedPlace = { room: 'bath', unit: 'in', wall: 2, x: Math.floor(draw() * 320_000), y: Math.floor(draw() * 800_000) };
    const looking = await timed(() => behind(state!, at));
    if (turn < 0) continue;
    times.open.push(opening);
    times.spot.push(looking);
  }
  return times;
}

function behind(job: JobState, at: TouchedPlace): void {
  const shape = shapeOf(job.drawings[0]!.data);
  if (!shape.ok || strataAt(job, at).length < 3 || featuresNear(job, shape.value, at).length === 0)
    throw new Error('nothing behind the tile');
}
