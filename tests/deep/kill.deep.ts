import { mkdtemp, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { setTimeout as pause } from 'node:timers/promises';
import { serveBlank } from '../e2e/blank-origin.ts';
import { startKillable } from '../e2e/killable.ts';
import type { Ack, check, Found, shoot } from './kill-page.ts';

type KillPage = { readonly check: typeof check; readonly shoot: typeof shoot };

export const inputs = ['src/lib/record', 'src/lib/device', 'tests/deep/kill-page.ts', 'tests/deep/kill.deep.ts', 'tests/e2e/killable.ts'];

const ROUNDS = 30;
/** Sizes of a round's photos, and how long after the first of them the browser is killed. */
const LARGEST_BYTES = 6_000_000;
const LATEST_KILL_MS = 2_000;

/**
 * Kills a real browser, all processes at once, while it keeps photos; starts it again on the same profile and asks what is there.
 * The list of what counted as saved lies outside the browser. Nothing on it may be missing, and no entry may stand without its photo.
 * The seed fixes sizes and moments; what the browser does at such a moment differs from run to run.
 */
export async function run(seed: number): Promise<Record<string, number>> {
  const chance = mulberry32(seed);
  const origin = await serveBlank('deep/kill-page.ts');
  const profile = await mkdtemp(join(tmpdir(), 'layerbook-kill-'));
  const acks = new Map<string, string>();
  let found: Found = { acks: [], findings: [], unbacked: [] };
  try {
    for (let round = 1; round <= ROUNDS; round++) {
      const sizes = Array.from({ length: 16 }, () => 10_000 + Math.floor(chance() ** 2 * LARGEST_BYTES));
      await untilKilled(origin.url, profile, sizes, chance() * LATEST_KILL_MS, (ack) => acks.set(ack.entry, ack.sha256));
      found = await afterwards(origin.url, profile);
      const kept = new Map(found.acks.map(({ entry, sha256 }) => [entry, sha256]));
      const lost = [...acks].filter(([entry, sha256]) => kept.get(entry) !== sha256);
      const fault = { lost, unbacked: found.unbacked, findings: found.findings };
      if (Object.values(fault).some((list) => list.length > 0)) throw new Error(`seed ${seed}, round ${round}: ${JSON.stringify(fault)}`);
    }
    return { rounds: ROUNDS, saved: acks.size, lost: 0, keptUnheard: found.acks.length - acks.size };
  } finally {
    await origin.close();
    await rm(profile, { recursive: true, force: true });
  }
}

async function untilKilled(url: string, profile: string, sizes: readonly number[], killAfterMs: number, heard: (ack: Ack) => void) {
  const { page, kill } = await startKillable(profile);
  try {
    const first = Promise.withResolvers<void>();
    await page.exposeFunction('tell', (ack: Ack) => {
      heard(ack);
      first.resolve();
    });
    await page.goto(url);
    // Its end is our kill; a fault of the store before that ends the round instead.
    const shooting = page.evaluate(async (all) => {
      const bundled = (await import(`${location.origin}/entry.js`)) as KillPage;
      return bundled.shoot(all, (globalThis as unknown as { tell: (ack: Ack) => Promise<void> }).tell);
    }, sizes);
    await Promise.race([shooting, first.promise]);
    shooting.catch(() => undefined);
    await pause(killAfterMs);
  } finally {
    await kill();
  }
}

async function afterwards(url: string, profile: string): Promise<Found> {
  const { page, kill } = await startKillable(profile);
  try {
    await page.goto(url);
    return await page.evaluate(async () => ((await import(`${location.origin}/entry.js`)) as KillPage).check());
  } finally {
    await kill();
  }
}

/** A small seeded generator: numbers from 0 up to 1 (mulberry32, public domain). */
function mulberry32(seed: number): () => number {
  let state = seed;
  return () => {
    state = (state + 0x6d2b79f5) | 0;
    let mixed = Math.imul(state ^ (state >>> 15), 1 | state);
    mixed = (mixed + Math.imul(mixed ^ (mixed >>> 7), 61 | mixed)) ^ mixed;
    return ((mixed ^ (mixed >>> 14)) >>> 0) / 2 ** 32;
  };
}
