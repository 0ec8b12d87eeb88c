import type { Page } from '@playwright/test';

/** Counts the touches that a page feels, over all its addresses. */
export async function countTouches(page: Page): Promise<void> {
  await page.addInitScript(() => {
    addEventListener(
      'pointerdown',
      (event) => event.isTrusted && sessionStorage.setItem('touches', String(Number(sessionStorage.getItem('touches') ?? 0) + 1)),
      true,
    );
  });
}

export const touches = (page: Page) => page.evaluate(() => Number(sessionStorage.getItem('touches') ?? 0));
