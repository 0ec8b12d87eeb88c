import type { Reckoning } from './ask.ts';
import { AIR_RECKONINGS } from './air.ts';
import { FILM_RECKONINGS } from './film.ts';
import { FLOOD_RECKONINGS } from './flood.ts';
import { MORTAR_RECKONINGS } from './mortar.ts';
import { SUBSTRATE_RECKONINGS } from './substrate.ts';
import { TIME_RECKONINGS } from './time.ts';

/** All that can be worked out on a page, in the order of the job. */
export const RECKONINGS: readonly Reckoning[] = [
  ...SUBSTRATE_RECKONINGS,
  ...MORTAR_RECKONINGS,
  ...FILM_RECKONINGS,
  ...AIR_RECKONINGS,
  ...FLOOD_RECKONINGS,
  ...TIME_RECKONINGS,
];
