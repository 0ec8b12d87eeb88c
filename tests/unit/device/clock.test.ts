import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import { deviceClock } from '#lib/device/clock.ts';
import { clockJump } from '#lib/record/append.ts';
import { Times } from '#lib/record/entry.ts';

/** A page whose sight and clocks the test moves. The monotonic clock stands still in sleep, as it does on some phones. */
class Page extends EventTarget {
  visibilityState: 'visible' | 'hidden' = 'visible';
  wallMs = Date.UTC(2026, 0, 15, 3);
  monoMs = 5_000.7;

  awake(ms: number): void {
    this.wallMs += ms;
    this.monoMs += ms;
    vi.setSystemTime(this.wallMs);
  }
  sleep(ms: number): void {
    this.setClock(ms);
  }
  setClock(ms: number): void {
    this.wallMs += ms;
    vi.setSystemTime(this.wallMs);
  }
  show(state: 'visible' | 'hidden'): void {
    this.visibilityState = state;
    this.dispatchEvent(new Event('visibilitychange'));
  }
}

const HOUR = 3_600_000;
let page: Page;

beforeEach(() => {
  page = new Page();
  vi.useFakeTimers({ now: page.wallMs, toFake: ['Date'] });
  vi.stubGlobal('document', page);
  vi.stubGlobal('addEventListener', page.addEventListener.bind(page));
  vi.spyOn(performance, 'now').mockImplementation(() => page.monoMs);
});

afterEach(() => {
  vi.useRealTimers();
  vi.unstubAllGlobals();
  vi.unstubAllEnvs();
  vi.restoreAllMocks();
});

it('reads wall clock, offset, zone and whole monotonic milliseconds as an entry keeps them', () => {
  const times = deviceClock()();
  // Lord Howe keeps UTC+11 in January, half an hour ahead of its winter.
  expect(times).toMatchObject({ utc: '2026-01-15T03:00:00.000Z', offsetMin: 660, zone: 'Australia/Lord_Howe', monoMs: 5_000 });
  expect(Times.safeParse(times).success).toBe(true);
});

it('a zone crossed with the page in sight is named by the next entry', () => {
  const now = deviceClock();
  const named = [now().zone];
  vi.stubEnv('TZ', 'America/Chicago');
  named.push(now().zone);
  expect(named).toEqual(['Australia/Lord_Howe', 'America/Chicago']);
});

describe('what counts as a clock jump', () => {
  it.each<{ story: string; happens: (page: Page) => void; jump: number | null }>([
    { story: 'ten minutes of work', happens: (one) => one.awake(600_000), jump: null },
    { story: 'clock set an hour ahead in sight', happens: (one) => one.setClock(HOUR), jump: HOUR },
    { story: 'clock set an hour back in sight', happens: (one) => one.setClock(-HOUR), jump: -HOUR },
    {
      story: 'a night asleep',
      happens: (one) => {
        one.show('hidden');
        one.sleep(8 * HOUR);
        one.show('visible');
      },
      jump: null,
    },
    {
      story: 'woken after sleep, not yet in sight',
      happens: (one) => {
        one.show('hidden');
        one.sleep(8 * HOUR);
      },
      jump: null,
    },
    {
      story: 'frozen and thawed without a change of sight',
      happens: (one) => {
        one.sleep(8 * HOUR);
        one.dispatchEvent(new Event('resume'));
      },
      jump: null,
    },
    {
      story: 'clock set back while out of sight',
      happens: (one) => {
        one.show('hidden');
        one.setClock(-HOUR);
        one.show('visible');
      },
      jump: -HOUR,
    },
  ])('$story: $jump', ({ happens, jump }) => {
    const now = deviceClock();
    const before = now();
    happens(page);
    expect(clockJump(before, now())?.wallDeltaMs ?? null).toBe(jump);
  });

  it('two naps between entries made out of sight', () => {
    const now = deviceClock();
    page.show('hidden');
    const before = now();
    page.sleep(HOUR);
    expect(clockJump(before, now())).toBeNull();
  });
});
