import { LOUPE_BY } from '#lib/ui/photo/stage.ts';
import * as m from '#lib/words/compiled/messages.js';
import type { Page } from '@playwright/test';
import type { Site } from './site.ts';

type Point = readonly [number, number];
type Area = { readonly quad: readonly Point[]; readonly widthMm: number; readonly heightMm: number; readonly unit?: 'mm' | 'in' };

/** Opens a photo from the viewfinder's page and goes on to measure in it. */
export async function measureFile(site: Site, jpeg: Buffer): Promise<void> {
  await site.addFiles([{ name: 'photo.jpg', mimeType: 'image/jpeg', buffer: jpeg }]);
  await site.link(site.say(m.measure_photo)).click();
  await site.button(site.say(m.stage_tap)).waitFor();
}

/** Touches the photo on the screen at one of its pixels, and says which a finger's whole pixel of the screen has hit. */
export async function tapPhoto(site: Site, [x, y]: Point): Promise<Point> {
  const stage = site.button(site.say(m.stage_tap));
  await stage.scrollIntoViewIfNeeded();
  const wide = await stage.evaluate((one) => one.parentElement!.querySelector<SVGSVGElement>(':scope > svg')!.viewBox.baseVal.width);
  const per = wide / (await stage.boundingBox())!.width;
  const [left, top] = [Math.round(x / per), Math.round(y / per)];
  await stage.click({ position: { x: left, y: top } });
  return [left * per, top * per];
}

/** Touches the photo, and pushes it under the loupe until the cross lies on the pixel. */
export async function tapSharp(site: Site, to: Point, name: string): Promise<void> {
  const rough = await tapPhoto(site, to);
  const loupe = site.button(site.say(m.loupe_of, { name }));
  await loupe.scrollIntoViewIfNeeded();
  const { x, y, width, height } = (await loupe.boundingBox())!;
  const [left, top] = [x + width / 2, y + height / 2];
  await site.page.mouse.move(left, top);
  await site.page.mouse.down();
  await site.page.mouse.move(left + (rough[0] - to[0]) * LOUPE_BY, top + (rough[1] - to[1]) * LOUPE_BY, { steps: 3 });
  await site.page.mouse.up();
}

/** Marks the four corners of an area and types its sides, in the job's unit. */
export async function markArea(site: Site, { quad, widthMm, heightMm, unit = 'mm' }: Area): Promise<void> {
  for (const [i, corner] of quad.entries()) await tapSharp(site, corner, site.say(m.mark_corner, { n: i + 1 }));
  const inUnit = (mm: number) => String(unit === 'mm' ? mm : mm / 25.4);
  await site.page.getByLabel(site.say(m.side_first, { unit })).fill(inUnit(widthMm));
  await site.page.getByLabel(site.say(m.side_second, { unit })).fill(inUnit(heightMm));
}

/** Marks the area of a coat and teaches film and bare. */
export async function teachCoat(site: Site, area: Area & { filmTaps: readonly Point[]; bareTaps: readonly Point[] }): Promise<void> {
  await markArea(site, area);
  for (const tap of area.filmTaps) await tapPhoto(site, tap);
  await site.page.getByRole('radio', { name: site.say(m.mark_bare) }).check();
  for (const tap of area.bareTaps) await tapPhoto(site, tap);
}

/** Places taught in a photo that stand in a draft on the disk, read past the app. */
export function taughtOnDisk(page: Page): Promise<number> {
  return page.evaluate(
    () =>
      new Promise<number>((resolve, reject) => {
        const opening = indexedDB.open('layerbook');
        opening.onerror = () => reject(opening.error ?? new Error('no answer'));
        opening.onsuccess = () => {
          const drafts = opening.result.transaction('drafts').objectStore('drafts').getAll() as IDBRequest<{ taught?: unknown[] }[]>;
          drafts.onerror = () => reject(drafts.error ?? new Error('no answer'));
          drafts.onsuccess = () => {
            opening.result.close();
            resolve(drafts.result.reduce((sum, { taught = [] }) => sum + taught.length, 0));
          };
        };
      }),
  );
}
