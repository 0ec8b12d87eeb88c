import type { BrowserContextOptions, Page } from '@playwright/test';
import { EXAMPLE_JOB } from '#lib/job/example.ts';
import { buildArchive } from '#lib/record/archive.ts';
import * as m from '#lib/words/compiled/messages.js';
import { quantityText, spanText } from '#lib/words/number.ts';
import type { Site } from '../e2e/site.ts';
import { tinyJob } from '../fixtures/small-job.ts';
import { BEHIND_SCREENS } from './behind-screens.ts';
import { DRAWING_SCREENS } from './drawing-screens.ts';
import { FLOOD_SCREENS } from './flood-screens.ts';
import { follow, JOB, onJob, titled, toSection, wall, words, type Screen } from './screen.ts';
import { PHOTO_SCREENS } from './photo-screens.ts';
import { PLANTED_SCREENS } from './planted-screens.ts';
import { SETUP_SCREENS } from './setup-screens.ts';

export const LANGS = ['en', 'es'] as const;
export const THEMES = ['light', 'dark'] as const;

/** A phone on which each language is the first. */
const phone = (locale: string): BrowserContextOptions => ({
  viewport: { width: 390, height: 844 },
  hasTouch: true,
  locale,
  timezoneId: 'America/Chicago',
  permissions: ['camera', 'microphone'],
  colorScheme: 'light',
  reducedMotion: 'reduce',
});
export const PHONE = { en: phone('en-US'), es: phone('es-MX') };

/** Turns the screen light or dark as the settings do, without leaving it. */
export async function showTheme(page: Page, theme: (typeof THEMES)[number]): Promise<void> {
  await page.evaluate((wanted) => void (document.documentElement.dataset['theme'] = wanted), theme);
}

const ROOM = { en: 'Hall bath', es: 'Baño del pasillo' } as const;
const SOURCE = { en: 'page 2, edition 7', es: 'página 2, edición 7' } as const;
const inches = (site: Site, value: string) => quantityText({ value, unit: 'in' }, site.lang);
const mil = (site: Site, value: string) => quantityText({ value, unit: 'mil' }, site.lang);

const room = (site: Site, units: 'in' | 'mm') => ({
  name: ROOM[site.lang],
  address: '12 Elm Street',
  person: 'Ines Robles',
  units,
  surfaces: [
    { name: wall(site), place: 'wall', system: 'sheet-and-liquid' } as const,
    { name: site.say(m.place_floor), place: 'floor', system: 'sheet-and-liquid' } as const,
  ],
  limits: [
    { what: 'overlap', min: units === 'in' ? '2' : '50', source: 'data-sheet', text: SOURCE[site.lang] } as const,
    {
      what: 'wet-film',
      min: units === 'in' ? '20' : '500',
      max: units === 'in' ? '26' : '650',
      source: 'data-sheet',
      text: SOURCE[site.lang],
    } as const,
  ],
});

/**
 * Every page of the router in the states a person meets, in the order of one walk through the book: each starts where the one
 * before it ended. A page without a line here fails a test.
 */
export const SCREENS: readonly Screen[] = [
  { name: 'jobs-none', route: '(book)', show: (site) => site.openJobs() },
  {
    name: 'settings',
    route: '(book)/settings',
    show: async (site) => {
      await site.link(site.say(m.page_settings)).click();
      await titled(site, m.page_settings);
    },
  },
  {
    name: 'speaking',
    route: '(book)/speaking',
    show: async (site) => {
      await site.link(site.say(m.page_speaking)).click();
      await titled(site, m.page_speaking);
    },
  },
  {
    name: 'new-empty',
    route: '(book)/new',
    show: async (site) => {
      await site.link(site.say(m.part_back)).click();
      await site.link(site.say(m.part_back)).click();
      await site.link(site.say(m.new_job)).click();
      await words(site, site.say(m.limits));
    },
  },
  {
    name: 'new-not-ready',
    route: '(book)/new',
    show: async (site) => {
      await site.button(site.say(m.start_job)).click();
      await words(site, site.say(m.setup_empty));
    },
  },
  {
    name: 'section-not-begun',
    route: JOB,
    show: async (site) => {
      await site.typeJob(room(site, 'in'));
      await site.button(site.say(m.start_job)).click();
      await site.page.getByTestId('section').waitFor();
    },
  },
  ...SETUP_SCREENS,
  {
    name: 'waits-none',
    route: `${JOB}/waits`,
    show: async (site) => {
      await toSection(site);
      await follow(site, m.page_waits, m.page_waits);
    },
  },
  {
    name: 'voice',
    route: `${JOB}/voice`,
    show: async (site) => {
      await toSection(site);
      await site.link(site.say(m.page_voice)).click();
      await site.button(site.say(m.sound_talk)).waitFor();
    },
  },
  {
    name: 'voice-saved',
    route: `${JOB}/voice`,
    show: async (site) => {
      await site.button(site.say(m.sound_talk)).click();
      await site.page
        .getByText(site.say(m.sound_running))
        .or(site.page.getByText(site.say(m.sound_too_loud)))
        .first()
        .waitFor();
      await site.button(site.say(m.stop)).click();
      await site.saved.waitFor();
    },
  },
  { name: 'write', route: `${JOB}/write`, show: (site) => onJob(site, 'write') },
  { name: 'write-conditions', route: `${JOB}/write`, show: (site) => onJob(site, 'write?kind=conditions') },
  {
    name: 'write-not-ready',
    route: `${JOB}/write`,
    show: async (site) => {
      await onJob(site, 'write?kind=deviation');
      await site.button(site.say(m.save)).click();
      await site.page.locator('[data-fault]').first().waitFor();
    },
  },
  { name: 'write-hand-over', route: `${JOB}/write`, show: (site) => onJob(site, 'write?kind=hand-over') },
  ...FLOOD_SCREENS,
  { name: 'tray-none', route: `${JOB}/tray`, show: (site) => onJob(site, 'tray') },
  { name: 'watch', route: `${JOB}/watch`, show: (site) => onJob(site, 'watch') },
  {
    name: 'curing',
    route: '(book)/curing',
    show: async (site) => {
      await toSection(site);
      await follow(site, m.page_curing, m.page_curing);
      await words(site, ROOM[site.lang]);
    },
  },
  {
    name: 'start',
    route: `${JOB}/start`,
    show: async (site) => {
      await site.openJobs();
      await site.openJob(ROOM[site.lang]);
      // The flood test still stands.
      await site.stopStep();
      await site.link(site.say(m.start_step)).click();
      await words(site, site.say(m.which_step));
    },
  },
  {
    name: 'section-running',
    route: JOB,
    show: async (site) => {
      await site.link(site.say(m.part_back)).click();
      await site.startStep('scrape');
    },
  },
  { name: 'shoot', route: `${JOB}/shoot`, show: (site) => site.openFinder() },
  { name: 'shoot-saved', route: `${JOB}/shoot`, show: (site) => site.shoot(wall(site)) },
  {
    name: 'shoot-file-refused',
    route: `${JOB}/shoot`,
    show: async (site) => {
      await site.pickFiles([{ name: 'offer.txt', mimeType: 'text/plain', buffer: Buffer.from('an offer') }]);
      await site.fault('not-an-image').waitFor();
    },
  },
  {
    name: 'jobs-photo-cut-off',
    route: '(book)',
    show: async (site) => {
      await site.openJobs();
      await site.fault('shooting-cut-off').waitFor();
    },
  },
  {
    name: 'inches-none',
    route: `${JOB}/read`,
    show: async (site) => {
      await site.button(site.say(m.leave_it)).click();
      await site.openJob(ROOM[site.lang]);
      await site.stopStep();
      await site.startStep('pre-cut');
      await site.openPad();
      await words(site, site.say(m.pad_no_value));
    },
  },
  { name: 'inches-within', route: `${JOB}/read`, show: (site) => site.touchInches(2, 11) },
  { name: 'inches-saved', route: `${JOB}/read`, show: (site) => site.saveReading(inches(site, '2.6875'), wall(site)) },
  { name: 'inches-outside', route: `${JOB}/read`, show: (site) => site.touchInches(1, 15) },
  {
    name: 'section-outside',
    route: JOB,
    show: async (site) => {
      await site.saveReading(inches(site, '1.9375'), site.say(m.place_floor));
      await site.link(site.say(m.part_back)).click();
      await words(site, site.say(m.n_outside, { n: 1 }));
    },
  },
  {
    name: 'comb-none',
    route: `${JOB}/read`,
    show: async (site) => {
      await site.stopStep();
      await site.startStep('liquid-coat');
      await site.openPad();
      await words(site, site.say(m.pad_no_value));
    },
  },
  { name: 'comb-not-proven', route: `${JOB}/read`, show: (site) => site.touchTooth(mil(site, '26')) },
  {
    name: 'comb-saved',
    route: `${JOB}/read`,
    show: (site) => site.saveReading(spanText({ value: '26', to: '28', unit: 'mil' }, site.lang), wall(site)),
  },
  {
    name: 'log',
    route: `${JOB}/log`,
    show: async (site) => {
      await site.link(site.say(m.part_back)).click();
      await site.link(site.say(m.page_log)).click();
      await words(site, site.say(m.kind_job));
    },
  },
  {
    name: 'record-none',
    route: `${JOB}/record`,
    show: async (site) => {
      await site.link(site.say(m.part_back)).click();
      await site.openRecordPage();
    },
  },
  { name: 'record-built', route: `${JOB}/record`, show: (site) => site.buildRecord() },
  {
    name: 'record-judged',
    route: `${JOB}/record`,
    show: async (site) => {
      await site.button(site.say(m.judge_again)).click();
      await site.page.getByTestId('judged').first().waitFor();
    },
  },
  { name: 'archive-written', route: `${JOB}/record`, show: (site) => site.writeArchive() },
  {
    name: 'jobs',
    route: '(book)',
    show: async (site) => {
      await site.openJobs();
      await site.page.getByText(ROOM[site.lang]).waitFor();
    },
  },
  {
    name: 'check',
    route: '(book)/check',
    show: async (site) => {
      await site.link(site.say(m.check_archive)).click();
      await titled(site, m.page_check);
    },
  },
  {
    name: 'check-unreadable',
    route: '(book)/check',
    show: (site) => site.check({ name: 'offer.zip', mimeType: 'application/zip', buffer: Buffer.from('an offer') }),
  },
  {
    name: 'import-refused',
    route: '(book)/import',
    show: async (site) => {
      await site.openJobs();
      await site.link(site.say(m.page_import)).click();
      await titled(site, m.page_import);
      const offer = { name: 'offer.zip', mimeType: 'application/zip', buffer: Buffer.from('an offer') };
      await site.page.getByLabel(site.say(m.check_choose)).setInputFiles(offer);
      await site.fault('import-refused').waitFor();
    },
  },
  {
    name: 'import-ready',
    route: '(book)/import',
    show: async (site) => {
      const { raws, blob } = await tinyJob();
      const built = await buildArchive({ raws, blob, date: '2026-03-04' });
      if (!built.ok) throw new Error(built.fault.code);
      const buffer = Buffer.from(await built.value.blob.arrayBuffer());
      await site.page.getByLabel(site.say(m.check_choose)).setInputFiles({ name: 'hall-bath.zip', mimeType: 'application/zip', buffer });
      await site.button(site.say(m.import_take)).waitFor();
    },
  },
  {
    name: 'example-section',
    route: JOB,
    show: async (site) => {
      await site.openJobs();
      await site.link(site.say(m.open_example)).click();
      await words(site, site.say(m.example_note));
    },
  },
  {
    name: 'example-waits',
    route: `${JOB}/waits`,
    show: async (site) => {
      await follow(site, m.page_waits, m.page_waits);
      await site.page.locator('[data-stand]').first().waitFor();
    },
  },
  {
    name: 'example-log',
    route: `${JOB}/log`,
    show: async (site) => {
      await toSection(site);
      await site.link(site.say(m.page_log)).click();
      await site.page.getByRole('listitem').nth(4).waitFor();
      // The page goes to its top a moment after it is drawn.
      await site.page.waitForFunction(() => scrollY === 0);
    },
  },
  {
    name: 'job-not-here',
    route: JOB,
    show: async (site) => {
      await site.page.goto(`/job/${EXAMPLE_JOB}-not-here`);
      await words(site, site.say(m.no_such_job_text));
    },
  },
  ...PLANTED_SCREENS,
  ...PHOTO_SCREENS,
  ...DRAWING_SCREENS,
  ...BEHIND_SCREENS,
  {
    name: 'millimetres',
    route: `${JOB}/read`,
    show: async (site) => {
      await site.openJobs();
      await site.startJob({ ...room(site, 'mm'), name: `${ROOM[site.lang]} 2` });
      await site.startStep('pre-cut');
      await site.openPad();
      for (const key of ['6', '8', site.say(m.decimal_mark), '5']) await site.button(key).click();
    },
  },
  {
    name: 'shoot-no-camera',
    route: `${JOB}/shoot`,
    show: async (site) => {
      // As the browser answers for a person who refused; until the page is loaded anew.
      await site.page.evaluate(() => {
        navigator.mediaDevices.getUserMedia = () => Promise.reject(new DOMException('Permission denied', 'NotAllowedError'));
      });
      await site.link(site.say(m.photo)).click();
      await site.fault('camera-refused').waitFor();
    },
  },
  {
    name: 'shoot-not-saved',
    route: `${JOB}/shoot`,
    show: async (site) => {
      await site.clearStore();
      await site.pickFiles(['static/example/01-house-front.jpg']);
      await site.fault('not-saved-gone').waitFor();
    },
  },
  {
    name: 'jobs-lost',
    route: '(book)',
    show: async (site) => {
      await site.openJobs();
      await site.fault('loss-at-start').waitFor();
    },
  },
  {
    name: 'jobs-newer-build',
    route: '(book)',
    show: async (site) => {
      await site.page.evaluate(() => indexedDB.open('layerbook', 2));
      await site.fault('closed-newer').waitFor();
    },
  },
];
