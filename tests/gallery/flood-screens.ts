import { KNOWN } from '#lib/words/codes.ts';
import { CHOICE } from '#lib/words/fields.ts';
import * as m from '#lib/words/compiled/messages.js';
import { quantityText } from '#lib/words/number.ts';
import type { Site } from '../e2e/site.ts';
import { JOB, onJob, type Screen } from './screen.ts';

const FLOOD = `${JOB}/flood`;
type Word = Parameters<Site['say']>[0];

async function choose(site: Site, name: Word, choice: string): Promise<void> {
  await site.page
    .getByRole('group', { name: site.say(name), exact: true })
    .getByLabel(choice, { exact: true })
    .check();
}

/** Everything prepared by the model code's rule, with a ruler in sixteenths and no control pan. */
async function prepare(site: Site): Promise<void> {
  await choose(site, m.flood_which_rule, site.say(CHOICE['profile.ipc-312.9']));
  await site.page.getByLabel(site.say(m.place_floor), { exact: true }).check();
  await choose(site, m.flood_plug, site.say(CHOICE['plug.below-flange']));
  await choose(site, m.flood_ceiling_before, site.say(CHOICE['ceiling.dry']));
  for (const name of [m.flood_line, m.flood_dam, m.flood_soaked, m.flood_sign]) await choose(site, name, site.say(KNOWN.yes));
  await choose(site, m.flood_pan, site.say(KNOWN.no));
  await choose(site, m.flood_ruler, quantityText({ value: '0.0625', unit: 'in' }, site.lang));
}

/** A flood test from its set-up to an end that comes too soon. They begin on any page of a job and end on the test's. */
export const FLOOD_SCREENS: readonly Screen[] = [
  { name: 'flood', route: FLOOD, show: (site) => onJob(site, 'flood') },
  { name: 'flood-prepared', route: FLOOD, show: prepare },
  {
    name: 'flood-filled',
    route: FLOOD,
    show: async (site) => {
      await site.button(site.say(m.flood_fill)).click();
      await site.link(site.say(m.flood_read)).waitFor();
    },
  },
  { name: 'flood-level', route: `${FLOOD}/level`, show: (site) => site.link(site.say(m.flood_read)).click() },
  { name: 'flood-look', route: `${FLOOD}/look`, show: (site) => onJob(site, 'flood/look') },
  {
    name: 'flood-end-too-soon',
    route: `${FLOOD}/end`,
    show: async (site) => {
      await onJob(site, 'flood/end');
      const passed = site.say(CHOICE['result.passed']);
      await site.page.getByLabel(passed, { exact: true }).check();
      await site.button(site.say(m.flood_save_result, { result: passed })).click();
      await site.fault('hold-not-over').waitFor();
    },
  },
];
