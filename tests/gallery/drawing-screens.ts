import { FIELD } from '#lib/words/fields.ts';
import * as m from '#lib/words/compiled/messages.js';
import type { Drawing } from '#lib/record/kinds/drawing.ts';
import { job, plantedSite, room, surface, type Planted } from '../e2e/planted.ts';
import type { Site } from '../e2e/site.ts';
import { ALCOVE, drawn, q, thing } from '../fixtures/drawn.ts';
import { follow, JOB, onJob, titled, words, type Screen } from './screen.ts';

const ID = 'drawn-hall';
const DRAW = `${JOB}/draw`;
const PLAN = `${JOB}/plan`;
const said = (text: string, value: string) => ({ text, value, unit: 'in' as const });

/** A shower between three walls with a drain, a valve, a shower arm and a niche. */
const SHOWER: Drawing = {
  ...drawn(ALCOVE, {
    things: [
      thing('drain', 1, [30, 16, null, 6]),
      thing('valve', 0, [16, null, 48]),
      thing('pipe', 0, [16, null, 78]),
      thing('niche', 1, [24, null, 46, 14, 20, 3.5]),
    ],
  }),
  height: said(`8' 0"`, '96'),
};
const mark = (id: string, of: string, place: Partial<{ wall: number; x: number; y: number; spot: string }>): Planted => ({
  id,
  kind: 'mark',
  refs: [of],
  data: { of, room: 'bath', ...place, x: q(place.x ?? 0), y: q(place.y ?? 0) },
});
const lap = (value: string) => ({ what: 'overlap' as const, surface: 'floor', said: said(value, value), how: 'tape' as const });

export const DRAWN_HALL: readonly Planted[] = [
  { ...job('Hall bath'), ago: 90 },
  { ...room('bath', 'Hall bath'), ago: 89 },
  { ...surface('north', 'Back wall', 'wall', { room: 'bath' }), ago: 88 },
  { ...surface('floor', 'Shower floor', 'floor', { room: 'bath' }), ago: 87 },
  { ...surface('curb', 'Curb', 'curb', { room: 'bath' }), ago: 86 },
];
const DRAWN: readonly Planted[] = [
  { id: 'lap-1', ago: 50, kind: 'reading', data: lap('2') },
  { id: 'lap-2', ago: 49, kind: 'reading', data: lap('2.25') },
  { id: 'note-1', ago: 48, kind: 'note', data: { words: 'Hairline crack', surfaces: [] } },
  { id: 'drawing-1', ago: 40, kind: 'drawing', data: SHOWER },
  mark('mark-1', 'lap-1', { x: 12, y: 20 }),
  mark('mark-2', 'lap-2', { x: 60, y: 32, spot: 'corner-2' }),
  mark('mark-3', 'note-1', { wall: 1, x: 20, y: 60 }),
];

const length = (site: Site, wall: number) =>
  site.page
    .getByRole('region', { name: site.say(m.draw_wall_n, { n: wall }), exact: true })
    .getByLabel(site.say(FIELD.length), { exact: true });

const fill = (site: Site, label: Parameters<Site['say']>[0], text: string) =>
  site.page.getByLabel(site.say(label), { exact: true }).fill(text);

/** The drawing, the plan and what is printed of them. They begin on any page and end on the last of these. */
export const DRAWING_SCREENS: readonly Screen[] = [
  {
    name: 'draw-none',
    route: DRAW,
    show: async (site) => {
      await plantedSite(site, ID, DRAWN_HALL);
      await onJob(site, 'draw');
    },
  },
  {
    name: 'draw-room-typing',
    route: `${DRAW}/room`,
    show: async (site) => {
      await site.link(site.say(m.draw_begin)).click();
      await length(site, 1).fill('32 in');
      await length(site, 2).fill(`5' 0"`);
    },
  },
  {
    name: 'draw-room-gap',
    route: `${DRAW}/room`,
    show: async (site) => {
      await length(site, 3).fill('32 in');
      await length(site, 4).fill('60 1/2 in');
      await site.page.getByRole('heading', { name: site.say(m.field_closing), exact: true }).scrollIntoViewIfNeeded();
    },
  },
  {
    name: 'draw',
    route: DRAW,
    show: async (site) => {
      await plantedSite(site, `${ID}-2`, [...DRAWN_HALL, ...DRAWN]);
      await onJob(site, 'draw');
    },
  },
  {
    name: 'draw-mark',
    route: `${DRAW}/mark`,
    show: async (site) => {
      await site.link(site.say(m.draw_add_mark)).click();
      await titled(site, m.draw_add_mark);
      await site.page.getByLabel(site.say(m.draw_mark_where), { exact: true }).selectOption('corner-3-top-in');
    },
  },
  {
    name: 'plan-from',
    route: PLAN,
    show: async (site) => {
      await onJob(site, 'plan');
      await fill(site, m.plan_roll_width, '1 m');
    },
  },
  {
    name: 'plan-trap',
    route: PLAN,
    show: async (site) => {
      await fill(site, m.plan_new_length, '10 m');
      await fill(site, m.plan_overlap, '2 in');
      await fill(site, m.plan_reach, '15 in');
      await site.button(site.say(m.plan_go)).click();
      await words(site, site.say(m.plan_trap));
    },
  },
  {
    name: 'plan-answer',
    route: PLAN,
    show: async (site) => {
      await fill(site, m.plan_reach, '');
      await fill(site, m.plan_roll_width, '20 in');
      await fill(site, m.plan_upturn, '2 in');
      await site.button(site.say(m.plan_go)).click();
      await site.button(site.say(m.plan_keep)).waitFor();
    },
  },
  {
    name: 'plan-walls',
    route: PLAN,
    show: async (site) => {
      await site.button(site.say(m.plan_keep)).click();
      await site.link(site.say(m.plan_walls)).click();
      await site.page.getByRole('group', { name: site.say(m.plan_which_walls) }).waitFor();
      await fill(site, m.plan_roll_width, '1 m');
      await fill(site, m.plan_new_length, '10 m');
      await fill(site, m.plan_overlap, '2 in');
      await site.button(site.say(m.plan_go)).click();
      await site.button(site.say(m.plan_keep)).waitFor();
    },
  },
  {
    name: 'cut-list',
    route: `${PLAN}/cut`,
    show: async (site) => {
      await site.button(site.say(m.plan_keep)).click();
      await follow(site, m.page_cut, m.page_cut);
    },
  },
  {
    name: 'mixing-card',
    route: `${PLAN}/mix`,
    show: async (site) => {
      await onJob(site, 'plan/mix');
      const mortar = site.page.getByRole('region', { name: site.say(m.mix_mortar), exact: true });
      const values = ['50', '80', '5', '6', '40', '30', '60', '10'];
      const boxes = mortar.getByRole('textbox');
      await boxes.nth(7).waitFor();
      for (const [i, value] of values.entries()) await boxes.nth(i).fill(value);
      await mortar.getByRole('definition').nth(4).waitFor();
    },
  },
];
