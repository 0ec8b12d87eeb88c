import type { Site } from '../e2e/site.ts';
import * as m from '#lib/words/compiled/messages.js';

/** One screen in one state. */
export interface Screen {
  readonly name: string;
  /** The page it shows, by its folder under src/routes. */
  readonly route: string;
  /** From the screen before it to this one. */
  readonly show: (site: Site) => Promise<unknown>;
}

/** The folder of a job's pages. */
export const JOB = '(book)/job/[id]';

/** The wall every new job is offered first. */
export const wall = (site: Site) => site.say(m.first_wall_back);

export const words = (site: Site, text: string) => site.page.getByText(text, { exact: true }).first().waitFor();

/** Waits for a page by its heading. */
export const titled = async (site: Site, title: () => string) =>
  site.page.getByRole('heading', { level: 1, name: site.say(title), exact: true }).waitFor();

export const follow = async (site: Site, name: () => string, title: () => string) => {
  await site.page
    .getByRole('link', { name: site.say(name) })
    .first()
    .click();
  await titled(site, title);
};

export const back = async (site: Site, title: () => string) => {
  await site.link(site.say(m.part_back)).click();
  await titled(site, title);
};

/** Back to the job's section, from a page next to it. */
export const toSection = async (site: Site) => {
  await site.link(site.say(m.part_back)).click();
  await site.page.getByTestId('section').waitFor();
};

/** Another page of the job whose page is open, by its address. */
export const onJob = async (site: Site, page: string) => {
  await site.go(`/job/${site.page.url().split('/')[4]!.split('?')[0]!}/${page}`);
  await site.heading.waitFor();
};
