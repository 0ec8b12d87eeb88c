import { coatPicture, lapPicture, mortarPicture } from '../camera/pictures.ts';
import { markArea, measureFile, tapPhoto, tapSharp, teachCoat } from '../e2e/measure.ts';
import { job, limit, plantedSite, run, surface, type Planted } from '../e2e/planted.ts';
import type { Site } from '../e2e/site.ts';
import * as m from '#lib/words/compiled/messages.js';
import { JOB, onJob, titled, type Screen } from './screen.ts';

const HALL: readonly Planted[] = [
  { ...job('Hall bath', 'mm'), ago: 90 },
  { ...surface('floor', 'Shower floor', 'floor'), ago: 87 },
  limit('overlap', '50', null, 'mm'),
  run('pre-cut', ['floor'], { ago: 40 }),
  { ...run('bond-sheets', ['floor'], { ago: 30 }) },
  run('liquid-coat', ['floor'], { ago: 20, coat: 1 }),
];

const finder = async (site: Site, step: string) => {
  await onJob(site, `shoot?run=run-${step}`);
  await site.untilFinder();
};

/** What is measured in photos: lengths, coats, mortar, and the card they are measured by. */
export const PHOTO_SCREENS: readonly Screen[] = [
  {
    name: 'card',
    route: '(book)/settings/card',
    show: async (site) => {
      await site.go('/settings/card');
      await titled(site, m.page_card);
    },
  },
  {
    name: 'photo-bar-owed',
    route: `${JOB}/measure`,
    show: async (site) => {
      await plantedSite(site, 'photo-hall', HALL);
      await finder(site, 'pre-cut');
      await measureFile(site, (await lapPicture()).jpeg);
      await site.fault('bar-not-measured').waitFor();
    },
  },
  {
    name: 'photo-length-end',
    route: `${JOB}/measure`,
    show: async (site) => {
      await site.page.getByLabel(site.say(m.bar_label)).fill('100');
      await site.page.getByText(site.say(m.card_found, { scale: '~' }).split('~')[0]!).waitFor();
      await tapSharp(site, (await lapPicture()).truth.segments[0]!.from, site.say(m.mark_end_1));
    },
  },
  {
    name: 'photo-length',
    route: `${JOB}/measure`,
    show: async (site) => {
      await tapSharp(site, (await lapPicture()).truth.segments[0]!.to, site.say(m.mark_end_2));
      await site.page.getByTestId('length').waitFor();
    },
  },
  {
    name: 'photo-length-kept',
    route: `${JOB}/measure`,
    show: async (site) => {
      const [word] = site.say(m.confirm_value, { value: '~' }).split('~');
      await site.page.getByRole('button', { name: new RegExp(`^${word}\\d`) }).click();
      await site.saved.waitFor();
    },
  },
  {
    name: 'photo-refused',
    route: `${JOB}/measure`,
    show: async (site) => {
      await finder(site, 'pre-cut');
      await measureFile(site, (await lapPicture('cut')).jpeg);
      await site.fault('card-cut-off').waitFor();
    },
  },
  {
    name: 'photo-rectangle',
    route: `${JOB}/measure`,
    show: async (site) => {
      await site.button(site.say(m.by_rectangle)).click();
      await site.page.getByLabel(site.say(m.side_first, { unit: 'mm' })).waitFor();
    },
  },
  {
    name: 'photo-coat',
    route: `${JOB}/measure`,
    show: async (site) => {
      const { jpeg, truth } = await coatPicture();
      await finder(site, 'liquid-coat');
      await measureFile(site, jpeg);
      await teachCoat(site, truth);
    },
  },
  {
    name: 'photo-misses',
    route: `${JOB}/measure`,
    show: async (site) => {
      await site.button(site.say(m.measure_now)).click();
      await site.page.getByTestId('coverage').waitFor();
      await site.button(site.say(m.miss_strike)).last().click();
    },
  },
  {
    name: 'photo-misses-kept',
    route: `${JOB}/measure`,
    show: async (site) => {
      await site.button(site.say(m.confirm_word)).click();
      await site.saved.waitFor();
    },
  },
  {
    name: 'photo-mortar',
    route: `${JOB}/measure`,
    show: async (site) => {
      const { jpeg, truth } = await mortarPicture();
      await finder(site, 'bond-sheets');
      await measureFile(site, jpeg);
      await markArea(site, truth);
      await tapPhoto(site, truth.mortar);
      await tapPhoto(site, truth.sheet);
      await site.button(site.say(m.measure_now)).click();
      await site.page.getByTestId('transfer').waitFor();
    },
  },
  {
    name: 'photo-layers',
    route: `${JOB}/layers`,
    show: async (site) => {
      await onJob(site, 'layers');
      await site.page.getByTestId('layer').waitFor();
    },
  },
];
