import type { Measure } from '#lib/record/kinds/reading.ts';
import { job, limit, looseShots, plantedSite, run, surface, type Planted } from '../e2e/planted.ts';
import type { Site } from '../e2e/site.ts';
import { SCALE } from '#lib/words/codes.ts';
import * as m from '#lib/words/compiled/messages.js';
import { JOB, onJob, words, type Screen } from './screen.ts';

const ID = 'planted-hall';
const both = ['north', 'floor'];

const lap = (value: string) => ({
  what: 'overlap' as const,
  surface: 'floor',
  said: { text: value, value, unit: 'in' as const },
  how: 'tape' as const,
});
const amends = (id: string, value: string): Planted => ({
  id,
  ago: 20,
  kind: 'amendment',
  refs: ['lap'],
  data: { of: 'lap', data: lap(value), why: '' },
});

/** A job of which another phone wrote the first half: photos nobody placed, a lap said anew twice. */
const HALL: readonly Planted[] = [
  { ...job('Hall bath'), ago: 90 },
  { ...surface('north', 'Back wall', 'wall'), ago: 88 },
  { ...surface('floor', 'Shower floor', 'floor'), ago: 87 },
  limit('moisture', null, '4', '%', { scale: 'carbide' }),
  limit('wet-film', '20', '26', 'mil'),
  { id: 'lap', ago: 50, kind: 'reading', data: lap('2') },
  amends('cross-1', '2.25'),
  amends('cross-2', '2.5'),
  run('band-seams', both, { ago: 40 }),
  run('liquid-coat', both, { ago: 30, coat: 2 }),
];

const pad = (site: Site, what: Measure, more = '') => onJob(site, `read?surface=floor&what=${what}${more}`);
const press = async (site: Site, ...keys: readonly string[]) => {
  for (const key of keys) await site.button(key).click();
};
const tiles = (site: Site) => site.page.getByRole('button', { pressed: false }).filter({ has: site.page.locator('img') });

/** The tray, the watch and the pads in the states that only a job well under way has. */
export const PLANTED_SCREENS: readonly Screen[] = [
  {
    name: 'tray-full',
    route: `${JOB}/tray`,
    show: async (site) => {
      await plantedSite(site, ID, HALL, await looseShots(7, 3));
      await onJob(site, 'tray');
      await tiles(site).nth(6).waitFor();
    },
  },
  {
    name: 'tray-chosen',
    route: `${JOB}/tray`,
    show: async (site) => {
      for (let i = 0; i < 3; i++) await tiles(site).first().click();
      await site.button('Shower floor').click();
    },
  },
  {
    name: 'tray-tagged',
    route: `${JOB}/tray`,
    show: async (site) => {
      await site.button(site.say(m.tray_tag, { n: 3 })).click();
      await site.saved.waitFor();
    },
  },
  {
    name: 'watching',
    route: `${JOB}/watch`,
    show: async (site) => {
      await onJob(site, 'watch');
      await site.button(site.say(m.watch_start)).click();
      await site.button(site.say(m.stop)).waitFor();
      await site.page.getByText(site.say(m.watch_frames, { n: 1 }), { exact: true }).waitFor();
    },
  },
  {
    name: 'watch-strip',
    route: `${JOB}/watch`,
    show: async (site) => {
      await site.button(site.say(m.stop)).click();
      await tiles(site).first().waitFor();
    },
  },
  { name: 'slope', route: `${JOB}/read`, show: (site) => pad(site, 'slope') },
  {
    name: 'below-zero-refused',
    route: `${JOB}/read`,
    show: async (site) => {
      await pad(site, 'surface-temperature');
      await press(site, '4', '1', site.say(m.read_minus));
      await site.fault('reading-too-small').waitFor();
    },
  },
  { name: 'moisture-no-scale', route: `${JOB}/read`, show: (site) => pad(site, 'moisture') },
  {
    name: 'moisture-outside',
    route: `${JOB}/read`,
    show: async (site) => {
      await site.page.getByRole('radio', { name: site.say(SCALE.carbide), exact: true }).check();
      await press(site, '7');
    },
  },
  {
    name: 'film-too-large',
    route: `${JOB}/read`,
    show: async (site) => {
      await pad(site, 'dry-film');
      await press(site, '2', '0', '0', '0');
      await site.fault('reading-too-large').waitFor();
    },
  },
  {
    name: 'shoot-with-value',
    route: `${JOB}/shoot`,
    show: async (site) => {
      await pad(site, 'dry-film');
      await press(site, ...((await site.button(site.say(m.pad_clear)).isEnabled()) ? [site.say(m.pad_clear)] : []), '2', '0');
      await site.link(site.say(m.photo)).click();
      await site.untilFinder();
    },
  },
  { name: 'work-out', route: `${JOB}/work-out`, show: (site) => onJob(site, 'work-out') },
  {
    name: 'work-out-bags',
    route: `${JOB}/work-out`,
    show: async (site) => {
      await onJob(site, 'work-out?of=bags');
      await site.page.getByRole('radio').first().check();
      const fields = site.page.getByRole('textbox');
      for (const [i, value] of ['1/4', '1/4', '1/4', '45', '16', '80', '200'].entries()) await fields.nth(i).fill(value);
      await site.page.locator('[aria-invalid=true]').waitFor();
    },
  },
  {
    name: 'work-out-found',
    route: `${JOB}/work-out`,
    show: async (site) => {
      await site.page.getByRole('textbox').last().fill('10');
      await site.page.getByRole('definition').last().scrollIntoViewIfNeeded();
    },
  },
  {
    name: 'log-crossed',
    route: `${JOB}/log`,
    show: async (site) => {
      await onJob(site, 'log');
      await site.page.locator('[id="lap"]').getByRole('button').first().click();
      await site.page.locator('[data-version="cross-2"]').waitFor();
    },
  },
  {
    name: 'find',
    route: '(book)/find',
    show: async (site) => {
      await site.go('/find?q=fernholow');
      await site.page.getByRole('listitem').waitFor();
    },
  },
  {
    name: 'find-none',
    route: '(book)/find',
    show: async (site) => {
      await site.page.goto('/find?q=xyzzy');
      await words(site, site.say(m.find_none));
    },
  },
];
