import type { Download, Locator, Page } from '@playwright/test';
import type { Place, System } from '#lib/job/systems.ts';
import type { Step } from '#lib/record/kinds/setup.ts';
import type { Measure } from '#lib/record/kinds/reading.ts';
import { STRIP, xOf } from '#lib/ui/reading/ruler.ts';
import { MEASURE, PLACE, SOURCE, STEP, SYSTEM } from '#lib/words/codes.ts';
import * as m from '#lib/words/compiled/messages.js';

export type Lang = 'en' | 'es';

export interface JobTyped {
  readonly name: string;
  readonly address?: string;
  readonly person?: string;
  readonly units?: 'in' | 'mm';
  /** The surfaces the job is to have; without them those the form offers. */
  readonly surfaces?: readonly { readonly name: string; readonly place: Place; readonly system: System }[];
  readonly limits?: readonly LimitTyped[];
}

export interface LimitTyped {
  readonly what: Measure;
  readonly min: string;
  readonly max?: string;
  readonly source: keyof typeof SOURCE;
  readonly text: string;
}

/** A file as the phone's picker hands it over. */
export interface PickedFile {
  readonly name: string;
  readonly mimeType: string;
  readonly buffer: Buffer;
}

/** The site as a person uses it: finds things by what they are called, and waits for what the page says. */
export class Site {
  readonly page: Page;
  readonly lang: Lang;
  /** Called each time the page has let the person know that something is saved. */
  onSaved: () => Promise<void> = async () => undefined;

  constructor(page: Page, lang: Lang = 'en') {
    this.page = page;
    this.lang = lang;
  }

  /** The words of a message in the language this person reads. */
  say<Facts extends object>(message: (facts: Facts, options: { locale: Lang }) => string, facts: Facts = {} as Facts): string {
    return message(facts, { locale: this.lang });
  }

  // ---- what there is to touch

  button(name: string): Locator {
    return this.page.getByRole('button', { name, exact: true });
  }
  link(name: string): Locator {
    return this.page.getByRole('link', { name, exact: true });
  }
  /** What the page says under a code of ours. */
  fault(code: string): Locator {
    return this.page.locator(`[data-fault="${code}"]`);
  }
  get shutter(): Locator {
    return this.button(this.say(m.take_photo));
  }
  get heading(): Locator {
    return this.page.getByRole('heading', { level: 1 });
  }

  // ---- the first page and the settings

  /** Opens the first page and waits until it has read what is on the phone. */
  async openJobs(): Promise<void> {
    await this.page.goto('/');
    await this.page
      .getByText(this.say(m.no_job_yet))
      .or(this.page.getByRole('listitem'))
      .or(this.page.getByRole('alert'))
      .first()
      .waitFor();
  }

  /**
   * Goes on to another address of the book as a link in the book leads there: what is loaded stays loaded. Ends when the page before is
   * gone. A page that only changes what it asks for in its address is loaded anew: it would stay, and nobody could tell when it has.
   */
  async go(address: string): Promise<void> {
    const leaves = await this.page.evaluate((to) => {
      const main = document.querySelector('main');
      const title = document.querySelector('h1');
      if (main === null || title === null || new URL(to, location.href).pathname === location.pathname) return false;
      title.setAttribute('data-left', '');
      const link = document.createElement('a');
      link.href = to;
      main.append(link);
      link.click();
      link.remove();
      return true;
    }, address);
    if (leaves) await this.page.locator('h1:not([data-left])').waitFor();
    else await this.page.goto(address);
  }

  /** Waits until the page says that it works without network. */
  async untilOffline(): Promise<void> {
    await this.page.getByText(this.say(m.offline_ready)).waitFor({ timeout: 30_000 });
  }

  // ---- a job

  /** Opens a job of the first page. */
  async openJob(name: string): Promise<void> {
    await this.page.getByRole('listitem').getByRole('link').filter({ hasText: name }).click();
    await this.page.getByTestId('section').waitFor();
  }

  /** Types a job and starts it, from the first page. Ends on its section and answers its id. */
  async startJob(job: JobTyped): Promise<string> {
    await this.link(this.say(m.new_job)).click();
    await this.typeJob(job);
    await this.button(this.say(m.start_job)).click();
    await this.page.waitForURL(/\/job\/[0-9a-f-]+$/);
    await this.page.getByTestId('section').waitFor();
    await this.onSaved();
    return this.page.url().split('/').at(-1)!;
  }

  async typeJob({ name, address, person, units, surfaces, limits = [] }: JobTyped): Promise<void> {
    await this.#field(m.setup_job_name).fill(name);
    if (address !== undefined) await this.#field(m.job_address).fill(address);
    if (person !== undefined) await this.#field(m.your_name).fill(person);
    if (units !== undefined) await this.#radio(this.say(units === 'in' ? m.units_in : m.units_mm)).check();
    if (surfaces !== undefined) await this.#typeSurfaces(surfaces);
    if (limits.length > 0)
      await this.unfold(this.page.locator('details').filter({ has: this.page.getByRole('heading', { name: this.say(m.limits) }) }));
    for (const limit of limits) await this.#typeLimit(limit);
  }

  async #typeSurfaces(surfaces: NonNullable<JobTyped['surfaces']>): Promise<void> {
    const section = this.page.getByRole('region', { name: this.say(m.surfaces) });
    const names = section.getByLabel(this.say(m.surface_name), { exact: true });
    await this.unfold(section.locator('details'));
    const removers = section.getByRole('button', { name: this.say(m.remove_surface, { name: '' }).trim() });
    while ((await names.count()) > surfaces.length) await removers.last().click();
    while ((await names.count()) < surfaces.length) await section.getByRole('button', { name: this.say(m.add_surface) }).click();
    for (const [i, { name, place, system }] of surfaces.entries()) {
      await names.nth(i).fill(name);
      await section.getByLabel(this.say(m.surface_place), { exact: true }).nth(i).selectOption(this.say(PLACE[place]));
      await section.getByLabel(this.say(m.surface_system), { exact: true }).nth(i).selectOption(this.say(SYSTEM[system]));
    }
  }

  /** Opens the parts of the form that stay closed until they are wanted. */
  async unfold(parts = this.page.locator('details')): Promise<void> {
    await parts.first().waitFor();
    for (const part of await parts.all())
      if (!(await part.evaluate((one: HTMLDetailsElement) => one.open))) await part.locator('summary').click();
  }

  async #typeLimit({ what, min, max, source, text }: LimitTyped): Promise<void> {
    const row = this.page.getByRole('group', { name: this.say(MEASURE[what]), exact: true });
    const [least, most] = [m.limit_min, m.limit_max].map((message) =>
      row.getByLabel(this.say(message, { unit: '' }).split('(')[0]!.trim()),
    );
    await least!.fill(min);
    if (max !== undefined) await most!.fill(max);
    await row.getByLabel(this.say(m.limit_source), { exact: true }).selectOption(this.say(SOURCE[source]));
    await row.getByLabel(this.say(m.limit_source_text), { exact: true }).fill(text);
  }

  #field(label: () => string): Locator {
    return this.page.getByLabel(this.say(label), { exact: true });
  }

  #radio(name: string): Locator {
    return this.page.getByRole('radio', { name, exact: true });
  }

  // ---- steps

  /** Starts a step from the section, on all its surfaces but those `without`, and ends on the section. */
  async startStep(step: Step, without: readonly string[] = []): Promise<void> {
    await this.link(this.say(m.start_step))
      .or(this.link(this.say(m.start_another)))
      .first()
      .click();
    await this.#radio(this.say(STEP[step])).check();
    for (const surface of without) await this.page.getByLabel(surface, { exact: true }).uncheck();
    await this.button(this.say(m.start_named, { step: this.say(STEP[step]) })).click();
    await this.#stop.waitFor();
    await this.onSaved();
  }

  async stopStep(): Promise<void> {
    await this.#stop.click();
    await this.link(this.say(m.start_step)).waitFor();
    await this.onSaved();
  }

  get #stop(): Locator {
    return this.page.getByRole('button', { name: new RegExp(`^${this.say(m.stop)}\\b`) });
  }

  // ---- photos

  /** Opens the viewfinder from the section. */
  async openFinder(): Promise<void> {
    await this.link(this.say(m.take_photo)).click();
    await this.untilFinder();
  }

  async untilFinder(): Promise<void> {
    await this.page.waitForFunction(() => (document.querySelector('video')?.videoWidth ?? 0) > 0);
  }

  async closeFinder(): Promise<void> {
    await this.link(this.say(m.finder_leave)).click();
    await this.page.getByTestId('section').waitFor();
  }

  /** Touches a surface, then the shutter, and waits for "Saved". Without a surface the one touched last stays. */
  async shoot(surface?: string): Promise<void> {
    await this.#pick(surface);
    await this.#untilSavedAnew(() => this.shutter.click());
  }

  async addFiles(files: readonly (PickedFile | string)[], surface?: string): Promise<void> {
    await this.#pick(surface);
    await this.#untilSavedAnew(() => this.pickFiles(files));
  }

  /** Picks files for the viewfinder's page, whatever becomes of them. */
  async pickFiles(files: readonly (PickedFile | string)[]): Promise<void> {
    await this.page.getByLabel(this.say(m.from_files)).setInputFiles([...files] as string[]);
  }

  async #pick(surface: string | undefined): Promise<void> {
    if (surface === undefined) return;
    const button = this.page.getByRole('group', { name: this.say(m.which_surface) }).getByRole('button', { name: surface, exact: true });
    if ((await button.getAttribute('aria-pressed')) !== 'true') await button.click();
  }

  /** "Saved" may stand there already, from the time before. */
  async #untilSavedAnew(act: () => Promise<void>): Promise<void> {
    await this.saved.evaluateAll((notices) => {
      for (const notice of notices) notice.setAttribute('data-read', '');
    });
    await act();
    await this.saved.and(this.page.locator(':not([data-read])')).waitFor();
    await this.onSaved();
  }

  get saved(): Locator {
    const [before = '', after = ''] = this.say(m.saved_at, { time: '~' }).split('~');
    return this.page.getByRole('status').filter({ hasText: new RegExp(`^\\s*${before}\\d.*${after}`) });
  }

  // ---- readings

  /** Opens the pad from the section or the viewfinder of a running step. */
  async openPad(): Promise<void> {
    await this.link(this.say(m.reading)).click();
  }

  /** Turns the comb to the side of a tooth, such as `22 mil`, and touches it as the last wet one. */
  async touchTooth(tooth: string): Promise<void> {
    const turn = this.button(this.say(m.pad_turn_comb));
    await turn.waitFor();
    while (!(await this.button(tooth).isVisible())) await turn.click();
    // A comb has more sides than a screen: it is turned until the tooth comes up.
    for (let turns = 0; turns < 6 && !(await this.button(tooth).isVisible()); turns++) await this.button('Turn the comb').click();
    await this.button(tooth).click();
  }

  /** Touches a key for the whole inches, then the graduation on the strip. */
  async touchInches(inches: number, sixteenths: number): Promise<void> {
    await this.button(String(inches)).click();
    const strip = this.page.getByRole('slider', { name: this.say(m.pad_sixteenths) });
    const { width, height } = (await strip.boundingBox())!;
    await strip.click({ position: { x: (xOf(sixteenths) / STRIP.width) * width, y: height / 2 } });
  }

  /** Keeps what the pad says and waits for "Saved". */
  async saveReading(said: string, surface?: string): Promise<void> {
    await this.#pick(surface);
    await this.#untilSavedAnew(() => this.button(this.say(m.save_value, { value: said })).click());
  }

  // ---- record, archive, check

  async openRecordPage(): Promise<void> {
    await this.link(this.say(m.page_record)).click();
    await this.button(this.say(m.record_build)).waitFor();
  }

  /** Builds the record on its page and saves it as a file. */
  async buildRecord(): Promise<Download> {
    await this.button(this.say(m.record_build)).click();
    const download = await this.#download(this.say(m.record_built));
    await this.onSaved();
    return download;
  }

  async writeArchive(): Promise<Download> {
    await this.button(this.say(m.archive_write)).click();
    return this.#download(this.say(m.archive_written));
  }

  async #download(title: string): Promise<Download> {
    const notice = this.page.getByRole('status').filter({ hasText: title });
    const link = notice.getByRole('link', { name: this.say(m.record_save) });
    await link.waitFor({ timeout: 30_000 });
    const [download] = await Promise.all([this.page.waitForEvent('download'), link.click()]);
    return download;
  }

  /** Has an archive checked on the check page and answers the verdict it shows. */
  async check(archive: PickedFile | string): Promise<string | null> {
    await this.page.getByLabel(this.say(m.check_choose)).setInputFiles(archive);
    return this.page.getByTestId('verdict').getAttribute('data-verdict');
  }

  // ---- what befalls a phone

  /** The person refuses the camera or the microphone in the browser's own dialog, which only the whole browser has. */
  async refuse(device: 'camera' | 'microphone'): Promise<void> {
    const context = this.page.context();
    const { targetInfo } = await (await context.newCDPSession(this.page)).send('Target.getTargetInfo');
    await (
      await context.browser()!.newBrowserCDPSession()
    ).send('Browser.setPermission', {
      permission: { name: device },
      setting: 'denied',
      origin: new URL(this.page.url()).origin,
      browserContextId: targetInfo.browserContextId!,
    });
  }

  /** The browser clears the store of the page while it is open. */
  async clearStore(): Promise<void> {
    const session = await this.page.context().newCDPSession(this.page);
    await session.send('Storage.clearDataForOrigin', { origin: new URL(this.page.url()).origin, storageTypes: 'indexeddb' });
  }
}
