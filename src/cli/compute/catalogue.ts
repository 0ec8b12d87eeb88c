import { FILM_ROWS } from './film.ts';
import { FLOOD_ROWS } from './flood.ts';
import { RATE_ROWS } from './rates.ts';
import { PARTS, type Row } from './row.ts';
import { MORTAR_ROWS, SUBSTRATE_ROWS } from './substrate.ts';
import { UNIT_ROWS } from './units.ts';
import { WEATHER_ROWS } from './weather.ts';

/** Every function of the trade that can be called from a terminal, part by part. */
export const CATALOGUE: readonly Row[] = [
  ...UNIT_ROWS, ...FILM_ROWS, ...SUBSTRATE_ROWS, ...MORTAR_ROWS, ...WEATHER_ROWS, ...FLOOD_ROWS, ...RATE_ROWS,
].toSorted((a, b) => PARTS.indexOf(a.part) - PARTS.indexOf(b.part)); // prettier-ignore
