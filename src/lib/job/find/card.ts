import type { Known } from '../../record/kinds.ts';
import type { Step } from '../../record/kinds/setup.ts';
import { isOpen } from '../callback/callbacks.ts';
import type { JobState } from '../state.ts';
import { asOneWord, wordsOf } from './terms.ts';

/** Where a word of a job stands. The order is that of their weight when found. */
export const FOUND_IN = ['lot', 'address', 'name', 'person', 'day', 'material', 'words'] as const;
export type FoundIn = (typeof FOUND_IN)[number];

/** What the book knows of a job without reading its log: enough to find it and to show it in a list. A cache, made from the log. */
export interface JobCard {
  readonly job: string;
  readonly name: string;
  readonly address: string;
  readonly lots: readonly string[];
  /** Begin of its first entry and of its last, ms. */
  readonly firstMs: number;
  readonly lastMs: number;
  readonly entries: number;
  readonly photos: number;
  /** Complaints that nobody has answered. */
  readonly openCallbacks: number;
  /** Steps that run. */
  readonly running: readonly Step[];
  /** Each word once, with the places it stands in as bits of FOUND_IN. */
  readonly words: Readonly<Record<string, number>>;
}

/** Words of one job that are kept; what comes after are those of later notes. */
const MOST_WORDS = 2_000;

/** Total. `words` may hold the transcripts and notes in people's own words; codes are not searched, as they are the same in each job. */
export function cardOf(job: JobState): JobCard {
  const words = new Map<string, number>();
  const add = (where: FoundIn, ...texts: readonly (string | null)[]) => {
    const bit = 1 << FOUND_IN.indexOf(where);
    for (const text of texts) {
      if (text === null) continue;
      const one = where === 'lot' || where === 'day' ? asOneWord(text) : null;
      for (const word of one === null ? wordsOf(text) : [...wordsOf(text), one]) {
        if (words.has(word) || words.size < MOST_WORDS) words.set(word, (words.get(word) ?? 0) | bit);
      }
    }
  };
  const lots = [...new Set(job.materials.map(({ lot }) => lot.trim()).filter((lot) => lot !== ''))];
  add('lot', ...lots);
  add('address', job.address);
  add('name', job.name, ...job.rooms.map(({ name }) => name), ...job.surfaces.map(({ name }) => name), job.permit);
  add('person', ...Object.values(job.people));
  add('material', ...job.materials.map(({ name }) => name), ...job.facts['data-sheet'].map(({ data }) => data.title));
  const days = new Set(job.lines.map(({ entry }) => localDay(entry.body.times)));
  add('day', ...days);
  for (const { standing } of job.lines) if (standing.state !== 'withdrawn') add('words', ...spokenIn(standing.view));
  const times = job.lines.map(({ entry }) => Date.parse(entry.body.times.utc)).filter(Number.isFinite);
  return {
    job: job.id ?? '',
    name: job.name,
    address: job.address,
    lots,
    firstMs: times.reduce((a, b) => Math.min(a, b), Infinity),
    lastMs: times.reduce((a, b) => Math.max(a, b), -Infinity),
    entries: job.lines.length,
    photos: job.shots.length,
    openCallbacks: job.facts.callback.filter(({ data }) => isOpen(data)).length,
    running: job.runs.filter(({ stopUtc }) => stopUtc === null).map(({ step }) => step),
    words: Object.fromEntries(words),
  };
}

/** `2026-06-09`, of the place where it was written: looked for as it is read in the log. */
function localDay({ utc, offsetMin }: { readonly utc: string; readonly offsetMin: number }): string {
  const ms = Date.parse(utc) + offsetMin * 60_000;
  return Number.isFinite(ms) ? new Date(ms).toISOString().slice(0, 10) : '';
}

/** The fields of each kind that hold a person's own words. */
const OWN_WORDS: Readonly<Record<string, readonly string[]>> = {
  survey: ['found', 'told'],
  deviation: ['what', 'why', 'accepted'],
  repair: ['what'],
  'by-others': ['who', 'what'],
  protect: ['how'],
  'tile-check': ['words'],
  'later-hole': ['what', 'who', 'sealed'],
  'hand-over': ['who', 'words'],
  attestation: ['words'],
  inspection: ['permit', 'who', 'words'],
  callback: ['complaint', 'looked', 'found', 'answer'],
  isolation: ['words'],
  'isolation-look': ['words'],
  opening: ['who', 'sample'],
  note: ['words'],
  reading: ['spot'],
  'not-done': ['words'],
};

function spokenIn(view: Known): string[] {
  if (view.kind === 'unknown') return [];
  const data = view.data as Readonly<Record<string, unknown>>;
  return (OWN_WORDS[view.kind] ?? []).flatMap((field) => (typeof data[field] === 'string' ? [data[field]] : []));
}
