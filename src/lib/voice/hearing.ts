import type { Expected } from './grammar.ts';

/** What may be said at this moment, as every recogniser is told it. What one engine needs besides is its own matter. */
export type Question = Pick<Expected, 'language' | 'field' | 'places' | 'coats' | 'commands' | 'steps'>;

/** What a recogniser made of a clip. */
export interface Heard {
  /** As they were heard, in lower case; empty where nothing was understood. */
  readonly words: string;
  /** What else it may have been, the likeliest first. */
  readonly alternatives: readonly string[];
  readonly engine: string;
  readonly version: string;
}
