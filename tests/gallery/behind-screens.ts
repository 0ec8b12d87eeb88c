import { EXAMPLE_JOB } from '#lib/job/example.ts';
import * as m from '#lib/words/compiled/messages.js';
import { onJob, JOB, titled, type Screen } from './screen.ts';

/** Behind the tile: from a page of a job whose room is drawn. */
export const BEHIND_SCREENS: readonly Screen[] = [
  {
    name: 'behind',
    route: `${JOB}/behind`,
    show: async (site) => {
      await onJob(site, 'behind');
      await titled(site, () => 'Hall bath');
    },
  },
  {
    name: 'behind-place',
    route: `${JOB}/behind`,
    show: async (site) => {
      await site.page.getByLabel(site.say(m.draw_mark_where), { exact: true }).selectOption('thing-1');
      await site.page.getByRole('button', { expanded: false }).first().waitFor();
    },
  },
  {
    name: 'behind-layer',
    route: `${JOB}/behind`,
    show: async (site) => {
      await site.page.goto(`/job/${EXAMPLE_JOB}/behind`);
      const slabs = site.page.getByRole('listitem').getByRole('button');
      await slabs.nth(2).click();
      await site.page.locator('figure').first().waitFor();
    },
  },
];
