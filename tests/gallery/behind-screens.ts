import { EXAMPLE_JOB } from '#lib/job/example.ts';
import * as m from '#lib/words/compiled/messages.js';
import { onJob, JOB, titled, words, type Screen } from './screen.ts';

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
      await site.go(`/job/${EXAMPLE_JOB}/behind`);
      // The first corner of the room: on the floor.
      await site.page.getByLabel(site.say(m.draw_mark_where), { exact: true }).selectOption({ index: 1 });
      await site.page.getByRole('listitem').getByRole('button').last().click();
      await site.page.locator('figure').first().waitFor();
    },
  },
  {
    name: 'behind-register',
    route: `${JOB}/behind`,
    show: async (site) => {
      await site.go(`/job/${EXAMPLE_JOB}/behind?room=bath&x=240000&y=280000`);
      const layers = site.page.getByRole('region', { name: site.say(m.behind_register) });
      await layers.getByTestId('in-register').waitFor();
      await layers.scrollIntoViewIfNeeded();
    },
  },
  {
    name: 'mark-area',
    route: `${JOB}/draw/mark`,
    show: async (site) => {
      await site.go(`/job/${EXAMPLE_JOB}/draw/mark?room=bath&of=photo-20`);
      await site.page.getByLabel(site.say(m.draw_mark_area_yes)).check();
      await site.page.getByRole('img', { name: site.say(m.draw_picture) }).click({ position: { x: 200, y: 120 } });
      await site.button(site.say(m.draw_mark_whole_floor)).click();
      await site.button(site.say(m.stage_tap)).waitFor();
    },
  },
  {
    name: 'callback-none',
    route: `${JOB}/callback`,
    show: async (site) => {
      await site.go(`/job/${EXAMPLE_JOB}/callback`);
      await words(site, site.say(m.callback_none));
    },
  },
  {
    name: 'callback',
    route: `${JOB}/callback`,
    show: async (site) => {
      await site.link(site.say(m.callback_write)).click();
      await site.page.getByRole('textbox', { name: site.say(m.field_complaint) }).fill('27-B: 2 x H2O');
      await site.page.getByRole('radio', { name: site.say(m.choice_shows_room_below) }).check();
      await site.button(site.say(m.save)).click();
      await site.page
        .locator('[data-kept]')
        .getByRole('link', { name: site.say(m.page_callback) })
        .click();
      await site.page.getByRole('heading', { name: site.say(m.callback_isolate) }).waitFor();
    },
  },
  {
    name: 'callback-where',
    route: `${JOB}/callback`,
    show: async (site) => {
      await site.link(site.say(m.callback_touch)).click();
      await site.page.getByLabel(site.say(m.draw_mark_where), { exact: true }).selectOption('corner-0');
      await site.button(site.say(m.callback_mark)).click();
      await words(site, site.say(m.callback_marked));
      await site.page
        .getByRole('status')
        .getByRole('link', { name: site.say(m.page_callback) })
        .click();
      await site.page.getByTestId('where-to-look').scrollIntoViewIfNeeded();
    },
  },
];
