import * as m from '#lib/words/compiled/messages.js';
import { STEP } from '#lib/words/codes.ts';
import type { Site } from '../e2e/site.ts';
import { back, follow, JOB, titled, wall, words, type Screen } from './screen.ts';

const SETUP = `${JOB}/setup`;
const field = (site: Site, label: Parameters<Site['say']>[0]) => site.page.getByLabel(site.say(label), { exact: true });
const save = (site: Site) => site.button(site.say(m.save)).click();

/** The pages of a job's set-up. They begin on its section and end on the list of its parts. */
export const SETUP_SCREENS: readonly Screen[] = [
  { name: 'setup', route: SETUP, show: (site) => follow(site, m.page_setup, m.page_setup) },
  {
    name: 'setup-job',
    route: `${SETUP}/job`,
    show: async (site) => {
      await site.page.getByRole('navigation').getByRole('link').first().click();
      await field(site, m.field_permit).waitFor();
    },
  },
  {
    name: 'setup-surface-unit-asked',
    route: `${SETUP}/surface`,
    show: async (site) => {
      await back(site, m.page_setup);
      await follow(site, m.setup_rooms, m.setup_rooms);
      await site.page.getByRole('link', { name: wall(site) }).click();
      await field(site, m.field_width).fill(`5' 3-1/2"`);
      await field(site, m.field_height).fill('96');
      await field(site, m.field_substrate).selectOption('cement-board');
      for (const group of [m.field_outside, m.field_retarder])
        await site.page
          .getByRole('group', { name: site.say(group) })
          .getByRole('radio')
          .first()
          .check();
      await save(site);
      await words(site, site.say(m.setup_no_unit));
    },
  },
  {
    name: 'setup-rooms-caution',
    route: `${SETUP}/rooms`,
    show: async (site) => {
      await site.button('96 in').click();
      await save(site);
      await titled(site, m.setup_rooms);
    },
  },
  { name: 'setup-room-copy', route: `${SETUP}/room`, show: (site) => follow(site, m.setup_copy_room, m.setup_copy_room) },
  {
    name: 'setup-material-past',
    route: `${SETUP}/material`,
    show: async (site) => {
      await back(site, m.setup_rooms);
      await back(site, m.page_setup);
      await follow(site, m.setup_materials, m.setup_materials);
      await follow(site, m.setup_add_material, m.field_material);
      await field(site, m.field_name).fill('S-1');
      await field(site, m.field_use_by).fill('2020-03-01');
      await words(site, site.say(m.setup_use_by_past));
    },
  },
  {
    name: 'setup-material-photo',
    route: `${SETUP}/material`,
    show: async (site) => {
      await save(site);
      await site.page.getByLabel(site.say(m.setup_label_photo)).setInputFiles('static/example/01-house-front.jpg');
      await site.saved.waitFor();
    },
  },
  {
    name: 'setup-materials',
    route: `${SETUP}/materials`,
    show: async (site) => {
      await back(site, m.setup_materials);
      await follow(site, m.setup_add_material, m.field_material);
      await field(site, m.setup_what).selectOption('mortar');
      await field(site, m.field_name).fill('M-2');
      await save(site);
      await words(site, site.say(m.setup_label_photo));
      await back(site, m.setup_materials);
    },
  },
  {
    name: 'setup-sheet-refused',
    route: `${SETUP}/sheet`,
    show: async (site) => {
      await back(site, m.page_setup);
      await follow(site, m.setup_sheets, m.setup_sheets);
      await follow(site, m.setup_add_sheet, m.field_sheet);
      await field(site, m.field_title).fill('S-1');
      const [pdf, offer] = [Buffer.from('%PDF-1.7 a data sheet'), Buffer.from('an offer, no sheet')];
      await site.page.getByLabel(site.say(m.setup_sheet_files)).setInputFiles([
        { name: 'S-1.pdf', mimeType: 'application/pdf', buffer: pdf },
        { name: 'offer.txt', mimeType: 'text/plain', buffer: offer },
      ]);
      await site.fault('not-a-page').waitFor();
    },
  },
  {
    name: 'setup-sheets',
    route: `${SETUP}/sheets`,
    show: async (site) => {
      await save(site);
      await titled(site, m.setup_sheets);
      await site.button(site.say(m.open_file)).click();
      await site.link(site.say(m.record_save)).waitFor();
    },
  },
  {
    name: 'setup-pairs',
    route: `${SETUP}/pairs`,
    show: async (site) => {
      await back(site, m.page_setup);
      await follow(site, m.setup_pairs, m.setup_pairs);
      await site.button(site.say(m.setup_pair_not_named)).first().click();
      await site.page
        .getByText(site.say(m.setup_pair_deviation, { said: '' }))
        .first()
        .waitFor();
    },
  },
  {
    name: 'setup-starters',
    route: `${SETUP}/starters`,
    show: async (site) => {
      await back(site, m.page_setup);
      await follow(site, m.limits, m.limits);
      await follow(site, m.setup_starters, m.setup_starters);
      await site.page.getByRole('radio', { name: site.say(m.starter_family_irc), exact: true }).check();
      await site.page.getByRole('checkbox').nth(2).check();
    },
  },
  {
    name: 'setup-limits',
    route: `${SETUP}/limits`,
    show: async (site) => {
      await site.button(site.say(m.setup_add_n_limits, { n: 1 })).click();
      await titled(site, m.limits);
    },
  },
  {
    name: 'setup-limit-not-ready',
    route: `${SETUP}/limit`,
    show: async (site) => {
      await follow(site, m.setup_add_limit, m.field_limit);
      await field(site, m.setup_of_what).selectOption('moisture');
      await save(site);
      await words(site, site.say(m.setup_no_scale));
    },
  },
  {
    name: 'setup-systems',
    route: `${SETUP}/systems`,
    show: async (site) => {
      await back(site, m.limits);
      await back(site, m.page_setup);
      await follow(site, m.setup_systems, m.setup_systems);
    },
  },
  {
    name: 'setup-own-system',
    route: `${SETUP}/own-system`,
    show: async (site) => {
      await follow(site, m.setup_add_own_system, m.kind_own_system);
      for (const step of ['scrape', 'liquid-coat'] as const) await site.button(site.say(STEP[step])).click();
    },
  },
  {
    name: 'setup-proof',
    route: `${SETUP}/proof`,
    show: async (site) => {
      await back(site, m.setup_systems);
      await back(site, m.page_setup);
      await follow(site, m.setup_proof, m.setup_proof);
    },
  },
  {
    name: 'setup-own-rule',
    route: `${SETUP}/own-rule`,
    show: async (site) => {
      await follow(site, m.setup_add_own_rule, m.kind_own_rule);
      await save(site);
      await words(site, site.say(m.setup_no_place));
    },
  },
  {
    name: 'setup-done',
    route: SETUP,
    show: async (site) => {
      await back(site, m.setup_proof);
      await back(site, m.page_setup);
    },
  },
];
