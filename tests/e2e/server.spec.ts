import { expect, test } from '@playwright/test';

const PROMISED = {
  'cross-origin-opener-policy': 'same-origin',
  'cross-origin-embedder-policy': 'require-corp',
  'cross-origin-resource-policy': 'same-origin',
  'x-content-type-options': 'nosniff',
  'x-frame-options': 'DENY',
  'content-security-policy': expect.stringContaining("frame-ancestors 'none'") as unknown,
  'referrer-policy': 'no-referrer',
  'cache-control': 'no-cache',
};

for (const [address, status] of [
  ['/', 200],
  ['/job/of-another-phone', 200],
  ['/service-worker.js', 200],
  ['/manifest.webmanifest', 200],
  ['/no/such/page', 404],
] as const) {
  test(`${address} answers ${status} with every header`, async ({ request }) => {
    const answer = await request.get(address);
    expect(answer.status()).toBe(status);
    expect(answer.headers()).toMatchObject(PROMISED);
  });
}

test('the page is isolated, and what it loads by a hashed name may be kept for ever', async ({ page }) => {
  const script = page.waitForResponse((answer) => answer.url().includes('/immutable/') && answer.url().endsWith('.js'));
  await page.goto('/');
  expect((await script).headers()['cache-control']).toContain('immutable');
  expect(await page.evaluate(() => crossOriginIsolated)).toBe(true);
});

test('a deep link opened online breaks no rule of the content security policy', async ({ page }) => {
  const refused: string[] = [];
  page.on('console', (message) => {
    if (message.text().includes('Content Security Policy')) refused.push(message.text());
  });
  await page.goto('/job/of-another-phone');
  await expect(page.locator('body')).not.toBeEmpty();
  await page.waitForLoadState('networkidle');
  expect(refused).toEqual([]);
});
