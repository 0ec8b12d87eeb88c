import type { ReadTx } from '../../record/shelf.ts';
import { FOUND_IN, type FoundIn, type JobCard } from './card.ts';
import { allIn, cardKey, lateSince, shortKey, wordKey, wordsFrom } from './rows.ts';
import { asOneWord, isNear, shortened, slipsAllowed, wordsOf } from './terms.ts';

export interface FoundJob {
  readonly card: JobCard;
  /** Where its words were found, each once, in the order of weight. */
  readonly where: readonly FoundIn[];
  /** The words of the job that answered, as they stand there. */
  readonly words: readonly string[];
}

export interface FoundJobs {
  readonly jobs: readonly FoundJob[];
  /** There may be more: what was asked for is in more jobs than were looked at. */
  readonly more: boolean;
}

/** Words that one typed word may stand for, and jobs looked at, newest first: what bounds the time, whatever the book holds. */
const MOST_WORDS = 24;
const MOST_JOBS = 150;

type Nearness = 'same' | 'begins' | 'near';
const WEIGHT: Readonly<Record<Nearness, number>> = { same: 3, begins: 2, near: 1 };

/**
 * Jobs that hold every word of a question, best first: the same word before one that begins so before one that is a slip or two away; lot
 * before address before name; the newest before the others. Reads some rows for each word, never the book. A single letter begins too many
 * words to say anything.
 */
export async function findJobs(tx: ReadTx, question: string, most = 30): Promise<FoundJobs> {
  const asked = [...new Set(wordsOf(question))].slice(0, 8);
  if (asked.length === 0) return newest(tx, most);
  const meant = await Promise.all(asked.map((word) => meantBy(tx, word)));
  const whole = asOneWord(question);
  const wholeLot = whole === null ? [] : await ofWord(tx, whole);
  // The word in the fewest jobs leads; the others are looked for on the cards of those.
  const leading = meant.toSorted((a, b) => count(a) - count(b))[0]!;
  const postings = await Promise.all(
    [...leading, ...wholeLot].map(({ word }) => tx.between('caches', ...allIn('find', 'in', word), MOST_JOBS)),
  );
  const ids = [...new Set((postings.flat() as [string, number][]).map(([job]) => job))];
  const looked = ids.slice(0, MOST_JOBS);
  const cards = (await Promise.all(looked.map((job) => tx.get('caches', cardKey(job))))) as (JobCard | undefined)[];
  const found = cards.flatMap((card) => (card === undefined ? [] : (score(card, asked, whole) ?? [])));
  found.sort((a, b) => b.score - a.score || b.found.card.lastMs - a.found.card.lastMs);
  const more =
    found.length > most || ids.length > MOST_JOBS || leading.length >= MOST_WORDS || postings.some((rows) => rows.length === MOST_JOBS);
  return { jobs: found.slice(0, most).map((one) => one.found), more };
}

/** Every job that carries a lot, whatever their number: a recall leaves none out. Newest first. */
export async function jobsWithLot(tx: ReadTx, lot: string): Promise<JobCard[]> {
  const word = asOneWord(lot) ?? wordsOf(lot)[0];
  if (word === undefined) return [];
  const rows = (await tx.all('caches', ['find', 'in', word])) as [string, number][];
  const bit = 1 << FOUND_IN.indexOf('lot');
  const cards = await Promise.all(rows.filter(([, bits]) => (bits & bit) !== 0).map(([job]) => tx.get('caches', cardKey(job))));
  return cards.filter((card) => card !== undefined) as JobCard[];
}

/** Ids of the jobs written to last, newest first; since a time, or all. */
export async function newestIds(tx: ReadTx, most: number, sinceMs = 0): Promise<string[]> {
  return (await tx.between('caches', ...lateSince(sinceMs), most)) as string[];
}

async function newest(tx: ReadTx, most: number): Promise<FoundJobs> {
  const ids = await newestIds(tx, most + 1);
  const cards = (await Promise.all(ids.map((job) => tx.get('caches', cardKey(job))))) as (JobCard | undefined)[];
  const jobs = cards.flatMap((card) => (card === undefined ? [] : [{ card, where: [], words: [] }]));
  return { jobs: jobs.slice(0, most), more: jobs.length > most };
}

interface Meant {
  readonly word: string;
  readonly jobs: number;
}

const count = (words: readonly Meant[]) => (words.length === 0 ? Infinity : words.reduce((sum, { jobs }) => sum + jobs, 0));

async function ofWord(tx: ReadTx, word: string): Promise<Meant[]> {
  const row = (await tx.get('caches', wordKey(word))) as [string, number] | undefined;
  return row === undefined ? [] : [{ word, jobs: row[1] }];
}

/** The words of the book that a typed word may stand for: itself and those that begin with it; words a slip away besides. */
async function meantBy(tx: ReadTx, asked: string): Promise<Meant[]> {
  const shorts = slipsAllowed(asked) === 0 ? [] : [...shortened(asked)];
  const [begun, ...near] = await Promise.all([
    asked.length < 2 ? ofWord(tx, asked) : tx.between('caches', ...wordsFrom(asked), MOST_WORDS),
    ...shorts.map((short) => tx.between('caches', shortKey(short, ''), shortKey(short, '\uffff'), MOST_WORDS)),
  ]);
  const begins = asked.length < 2 ? (begun as Meant[]) : (begun as [string, number][]).map(([word, jobs]) => ({ word, jobs }));
  const known = new Set(begins.map(({ word }) => word));
  const slipped = [...new Set(near.flat() as string[])].filter((word) => !known.has(word) && nearness(asked, word) === 'near');
  const counted = await Promise.all(slipped.slice(0, MOST_WORDS).map((word) => ofWord(tx, word)));
  return [...begins, ...counted.flat()];
}

/** How a word of a job answers a typed one; null where it does not. */
export function nearness(asked: string, word: string): Nearness | null {
  if (asked === word) return 'same';
  if (asked.length >= 2 && word.startsWith(asked)) return 'begins';
  const slips = Math.min(slipsAllowed(asked), slipsAllowed(word));
  // A figure off is another lot and another house.
  if (slips === 0 || /\d/.test(asked) || !isNear(asked, word, slips)) return null;
  return 'near';
}

/** How a card that is not in the book answers a question; null where it does not. */
export function answers(card: JobCard, question: string): FoundJob | null {
  return score(card, [...new Set(wordsOf(question))], asOneWord(question))?.found ?? null;
}

function score(card: JobCard, asked: readonly string[], whole: string | null): { score: number; found: FoundJob } | null {
  const words: string[] = [];
  let bits = 0;
  let sum = 0;
  const answer = (word: string, weight: number) => {
    words.push(word);
    const at = card.words[word]!;
    bits |= at;
    sum += weight * 10 - (31 - Math.clz32(at & -at));
  };
  if (whole !== null && Object.hasOwn(card.words, whole)) answer(whole, WEIGHT.same * asked.length);
  else
    for (const one of asked) {
      let best: { word: string; weight: number } | null = null;
      for (const word of Object.keys(card.words)) {
        const near = nearness(one, word);
        if (near !== null && WEIGHT[near] > (best?.weight ?? 0)) best = { word, weight: WEIGHT[near] };
      }
      if (best === null) return null;
      answer(best.word, best.weight);
    }
  const where = FOUND_IN.filter((_, i) => (bits & (1 << i)) !== 0);
  return { score: sum, found: { card, where, words } };
}
