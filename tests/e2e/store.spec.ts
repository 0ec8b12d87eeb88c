import { mkdtemp, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { chromium, expect, test as base, type BrowserContext, type Page } from '@playwright/test';
import { BOOK_CASES } from '../contract/book-contract.ts';
import { SHELF_CASES } from '../contract/shelf-contract.ts';
import { serveBlank, type BlankOrigin } from './blank-origin.ts';
import { launchOptions } from './browser.ts';
import type * as StorePage from './store-page.ts';

type Called = { [K in keyof typeof StorePage]: (typeof StorePage)[K] };
type Phone = {
  readonly page: Page;
  readonly call: <K extends keyof Called>(name: K, ...args: Parameters<Called[K]>) => Promise<Awaited<ReturnType<Called[K]>>>;
};

const test = base.extend<{ phone: () => Promise<Phone> }, { origin: BlankOrigin }>({
  origin: [
    // Playwright tells by the pattern what a fixture needs.
    // eslint-disable-next-line no-empty-pattern
    async ({}, use) => {
      const origin = await serveBlank('e2e/store-page.ts');
      await use(origin);
      await origin.close();
    },
    { scope: 'worker' },
  ],
  phone: async ({ context, origin }, use) => {
    await use(async () => {
      const page = await context.newPage();
      await page.goto(origin.url);
      return { page, call: (name, ...args) => page.evaluate(callExported, { name, args }) as never };
    });
  },
});

/** A browser with its profile on the disk: a context without one keeps its store in memory, where space is counted otherwise. */
const testOnDisk = test.extend({
  // eslint-disable-next-line no-empty-pattern
  context: async ({}, use) => {
    const profile = await mkdtemp(join(tmpdir(), 'layerbook-store-'));
    const context = await chromium.launchPersistentContext(profile, launchOptions());
    await use(context);
    await context.close();
    await rm(profile, { recursive: true, force: true });
  },
});

async function callExported({ name, args }: { name: string; args: unknown[] }): Promise<unknown> {
  const exported = (await import(`${location.origin}/entry.js`)) as Record<string, (...args: unknown[]) => unknown>;
  return exported[name]!(...args);
}

async function devTools(context: BrowserContext, page: Page) {
  const session = await context.newCDPSession(page);
  const origin = new URL(page.url()).origin;
  return {
    setQuota: (bytes: number) => session.send('Storage.overrideQuotaForOrigin', { origin, quotaSize: bytes }),
    evict: () => session.send('Storage.clearDataForOrigin', { origin, storageTypes: 'indexeddb' }),
    grantPersistence: () => session.send('Browser.grantPermissions', { origin, permissions: ['durableStorage'] }),
  };
}

test.describe('contract in a real browser', () => {
  for (const [which, cases] of [
    ['shelf', SHELF_CASES],
    ['book', BOOK_CASES],
  ] as const) {
    test(`${which}: every case`, async ({ phone }) => {
      const outcomes = await (await phone()).call('runContract', which);
      expect(outcomes).toEqual(cases.map(({ name }) => ({ name, fault: null })));
    });
  }

  test('every transaction that writes asks for strict durability and gets it', async ({ phone, context }) => {
    await context.addInitScript(() => {
      const seen: string[] = [];
      const make = IDBDatabase.prototype.transaction;
      IDBDatabase.prototype.transaction = function (...args) {
        const tx = make.apply(this, args);
        if (tx.mode === 'readwrite') seen.push((tx as unknown as { durability: string }).durability);
        return tx;
      };
      Object.assign(globalThis, { seen });
    });
    const { page, call } = await phone();
    await call('open', 'store');
    await call('shoot', 1_000);
    const seen = await page.evaluate(() => (globalThis as unknown as { seen: string[] }).seen);
    expect(seen.length).toBeGreaterThanOrEqual(2);
    expect(new Set(seen)).toEqual(new Set(['strict']));
  });
});

test.describe('storage full', () => {
  // Each quota lets another number of photos of 1 MB through.
  for (const [fits, quotaMb] of [1.6, 2.6, 3.6, 4.6].entries()) {
    testOnDisk(`at photo ${fits + 2}: what was told saved is what is stored, and a note still fits`, async ({ phone, context }) => {
      const { page, call } = await phone();
      const tools = await devTools(context, page);
      await tools.setQuota(quotaMb * 1_000_000);
      await call('open', 'store');
      const told = [];
      for (let i = 0; i < 6; i++) told.push(await call('shoot', 1_000_000));
      const saved = told.flatMap((one) => ('saved' in one ? [one.saved] : []));
      const refused = told.flatMap((one) => ('notSaved' in one ? [one.notSaved] : []));
      expect(saved.length).toBe(fits + 1);
      expect(refused).toEqual(Array.from({ length: 5 - fits }, () => 'full'));
      expect(await call('note', 'no room for photos')).toBe(true);
      expect(await call('stored')).toMatchObject({
        kinds: ['device', ...saved.map(() => 'shot'), 'person'],
        pictures: saved,
        blobs: saved.length,
        half: [],
        findings: [],
      });
    });
  }
});

test.describe('the store goes away', () => {
  test('cleared while open: nothing more is told saved, no chain begins anew, and the next start reports the loss', async ({
    phone,
    context,
  }) => {
    const { page, call } = await phone();
    const tools = await devTools(context, page);
    const before = await call('open', 'store');
    await call('shoot', 1_000);
    await call('noteHeld', 'store');
    await tools.evict();
    expect(await call('shoot', 1_000)).toEqual({ notSaved: 'gone' });
    expect(await call('shoot', 1_000)).toEqual({ notSaved: 'gone' });
    await page.reload();
    const after = await call('open', 'store');
    expect(await call('lossAtStart', 'store')).toEqual({ held: 2, found: 0 });
    expect(after).not.toEqual(before);
    expect((await call('stored')).hashes).toEqual([]);
  });

  test('a dead handle is dropped and the photo kept on a fresh connection', async ({ phone, context }) => {
    await context.addInitScript(() => {
      const make = IDBDatabase.prototype.transaction;
      IDBDatabase.prototype.transaction = function (...args) {
        Object.assign(globalThis, { lastHandle: this });
        return make.apply(this, args);
      };
    });
    const { page, call } = await phone();
    await call('open', 'store');
    await call('shoot', 1_000);
    await page.evaluate(() => (globalThis as unknown as { lastHandle: IDBDatabase }).lastHandle.close());
    expect(await call('shoot', 1_000)).toHaveProperty('saved');
    expect(await call('stored')).toMatchObject({ kinds: ['device', 'shot', 'shot'], findings: [] });
  });

  test('a newer build takes over: the page here flushes its draft, lets go and says so; the newer one goes on with the chain', async ({
    phone,
  }) => {
    const [here, newer] = [await phone(), await phone()];
    const device = await here.call('open', 'store');
    await here.call('shoot', 1_000);
    expect(await newer.call('open', 'store', 2)).toEqual(device);
    expect(await here.call('supersededTimes')).toBe(1);
    expect(await here.call('shoot', 1_000)).toEqual({ notSaved: 'newer' });
    expect(await newer.call('shoot', 1_000)).toHaveProperty('saved');
    expect(await newer.call('stored')).toMatchObject({ kinds: ['device', 'shot', 'shot'], findings: [], lastWords: 'flushed' });
    const older = await phone();
    expect(await older.call('open', 'store')).toBe('newer');
  });

  test('a page that does not let go blocks the newer build, which says so and goes on when it is closed', async ({ phone }) => {
    const [older, newer] = [await phone(), await phone()];
    await older.page.evaluate(async () => {
      const opening = indexedDB.open('store', 1);
      await new Promise((resolve) => (opening.onsuccess = resolve));
      Object.assign(globalThis, { held: opening.result });
    });
    expect(await newer.call('open', 'store', 2)).toBe('blocked');
    await older.page.close();
    expect(await newer.call('open', 'store', 2)).toHaveProperty('device');
    expect(await newer.call('shoot', 1_000)).toHaveProperty('saved');
  });
});

test.describe('two pages', () => {
  test('that start together are one device with one key, kept where no script can read it', async ({ phone }) => {
    const [one, other] = [await phone(), await phone()];
    const [first, second] = await Promise.all([one.call('open', 'store'), other.call('open', 'store')]);
    expect(second).toEqual(first);
    expect(first).toHaveProperty('publicKey', expect.stringMatching(/^[0-9a-f]{64}$/));
    await one.page.reload();
    expect(await one.call('open', 'store')).toEqual(first);
    expect(await one.call('keyCanBeReadOut')).toBe(false);
  });

  test('append 60 times each to one chain: no fork, every entry told saved is in it', async ({ phone }) => {
    const [one, other] = [await phone(), await phone()];
    await Promise.all([one.call('open', 'store'), other.call('open', 'store')]);
    const told = (await Promise.all([one.call('appendMany', 'one', 60), other.call('appendMany', 'other', 60)])).flat();
    const { hashes, kinds, ids, findings } = await one.call('stored');
    expect(hashes.toSorted()).toEqual(told.toSorted());
    expect(kinds).toEqual(['device', ...Array.from({ length: 120 }, () => 'person')]);
    expect(new Set(ids).size).toBe(121);
    expect(findings).toEqual([]);
  });

  test('the same without comparing the head loses entries, so the test above can fail', async ({ phone }) => {
    const [one, other] = [await phone(), await phone()];
    await Promise.all([one.call('open', 'store'), other.call('open', 'store')]);
    const told = (await Promise.all([one.call('appendManyUnchecked', 'one', 60), other.call('appendManyUnchecked', 'other', 60)])).flat();
    expect(told).toHaveLength(120);
    expect((await one.call('stored')).hashes.length).toBeLessThan(120);
  });
});

testOnDisk('persistence: may be cleared until the browser grants it, then kept', async ({ phone, context }) => {
  const { page, call } = await phone();
  expect(await call('askToKeep')).toBe('may-be-cleared');
  await (await devTools(context, page)).grantPersistence();
  expect(await call('askToKeep')).toBe('kept');
  expect(await call('persistence')).toBe('kept');
});
