import { execFileSync } from 'node:child_process';
import { mkdtemp, readFile, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { setTimeout as pause } from 'node:timers/promises';
import { expect as patient, type Page } from '@playwright/test';
import { verifyChains } from '#lib/record/chain.ts';
import { known } from '#lib/record/kinds.ts';
import { verify } from '#lib/record/verify.ts';
import * as m from '#lib/words/compiled/messages.js';
import { startKillable } from './killable.ts';
import { job, plant, surface } from './planted.ts';
import { Site } from './site.ts';
import { entriesOf, readStored } from './stored.ts';
import { test } from './test.ts';

/** A busy machine is no fault of the book. */
const expect = patient.configure({ timeout: 30_000 });

const ROOM = { name: 'Hall bath', surfaces: [{ name: 'Back wall', place: 'wall', system: 'sheet' }] } as const;
const HALL = [job(ROOM.name), surface('back', 'Back wall', 'wall')];

// The cache for offline, tried in speech.spec.ts, would only take room and time.
test.use({ permissions: ['camera', 'microphone'], serviceWorkers: 'block' });
test.describe.configure({ mode: 'parallel', timeout: 150_000 });

/** A job, on its page of voice notes. */
async function atVoice(page: Page): Promise<Site> {
  const site = new Site(page);
  await site.openJobs();
  await plant(page, 'hall', HALL);
  await page.goto('/job/hall/voice');
  await key(site, 'talk').waitFor();
  return site;
}

const key = (site: Site, which: 'talk' | 'stop') => site.button(site.say(which === 'talk' ? m.sound_talk : m.stop));
/** The length shown, in whole seconds. */
const seconds = async (site: Site) => {
  const [minutes, rest] = (await site.page.locator('.length').innerText()).split(':').map(Number);
  return minutes! * 60 + rest!;
};
async function untilSeconds(site: Site, least: number): Promise<void> {
  await expect.poll(() => seconds(site)).toBeGreaterThanOrEqual(least);
}

/** The voice notes in the store, read past the app: what their entries say, and their bytes. */
async function storedNotes(page: Page) {
  const entries = entriesOf(await readStored(page));
  expect(verifyChains(entries)).toEqual([]);
  const views = entries.map((entry) => known(entry)).filter((view) => view.kind === 'voice');
  return Promise.all(views.map(async ({ data }) => ({ ...data, file: await storedBlob(page, data.sound.sha256) })));
}

async function storedBlob(page: Page, sha256: string): Promise<Buffer> {
  const text = await page.evaluate(async (wanted) => {
    const db = await new Promise<IDBDatabase>((resolve) => {
      const request = indexedDB.open('layerbook');
      request.onsuccess = () => resolve(request.result);
    });
    const request = db
      .transaction('parts')
      .objectStore('parts')
      .getAll(IDBKeyRange.bound([wanted], [wanted, []])) as IDBRequest<Blob[]>;
    await new Promise((answered) => (request.onsuccess = answered));
    db.close();
    const reader = new FileReader();
    reader.readAsDataURL(new Blob(request.result));
    await new Promise((read) => (reader.onload = read));
    return (reader.result as string).split(',')[1]!;
  }, sha256);
  return Buffer.from(text, 'base64');
}

/** How many full seconds of running recordings the disk has acknowledged. */
async function piecesOnDisk(page: Page): Promise<number> {
  return page.evaluate(async () => {
    const db = await new Promise<IDBDatabase>((resolve) => {
      const request = indexedDB.open('layerbook');
      request.onsuccess = () => resolve(request.result);
    });
    const request = db
      .transaction('drafts')
      .objectStore('drafts')
      .getAllKeys(IDBKeyRange.bound(['sound'], ['sound', []]));
    await new Promise((answered) => (request.onsuccess = answered));
    db.close();
    return (request.result as unknown[][]).filter((one) => one.length === 3).length;
  });
}

/** Whole seconds of a recording under way that the disk has acknowledged, at least so many. */
async function untilOnDisk(site: Site, least: number): Promise<number> {
  await expect.poll(() => piecesOnDisk(site.page)).toBeGreaterThanOrEqual(least);
  return piecesOnDisk(site.page);
}

/** What Python's standard library makes of a file: a WAV of the book's own form, or an error. */
function inPython(file: Buffer): { rate: number; channels: number; width: number; frames: number; peak: number } {
  const script = `
import array, io, json, sys, wave
with wave.open(io.BytesIO(sys.stdin.buffer.read())) as w:
    samples = array.array("h", w.readframes(w.getnframes()))
    print(json.dumps({"rate": w.getframerate(), "channels": w.getnchannels(), "width": w.getsampwidth(),
                      "frames": len(samples), "peak": max(map(abs, samples))}))`;
  return JSON.parse(execFileSync('python3', ['-c', script], { input: file, encoding: 'utf8' })) as ReturnType<typeof inPython>;
}

test('three seconds, without network: an entry with a whole WAV of what the microphone heard, played back, and in the archive', async ({
  page,
  context,
}) => {
  const site = await atVoice(page);
  await site.button('Back wall').click();
  await context.setOffline(true);
  await key(site, 'talk').click();
  await untilSeconds(site, 3);
  await key(site, 'stop').click();
  await expect(site.saved).toBeVisible();

  const [note, ...more] = await storedNotes(page);
  expect(more).toEqual([]);
  const heard = inPython(note!.file);
  expect(heard).toMatchObject({ rate: 16_000, channels: 1, width: 2 });
  expect(heard.peak).toBeGreaterThan(300);
  expect(note).toMatchObject({ cut: false, ms: Math.floor(heard.frames / 16), sound: { bytes: note!.file.length } });
  expect(note!.ms).toBeGreaterThanOrEqual(3_000);
  expect(note!.surfaces).toHaveLength(1);
  expect(await piecesOnDisk(page)).toBe(0);

  const row = page.getByRole('listitem').filter({ hasText: 'Back wall' });
  await row.getByRole('button', { name: /^Play/ }).click();
  await expect(row.getByRole('button', { name: /^Stop/ })).toBeVisible();
  // Its length is known as soon as its head is read.
  await expect.poll(() => row.locator('audio').evaluate((one: HTMLAudioElement) => one.duration)).toBeCloseTo(note!.ms / 1000, 1);

  await context.setOffline(false);
  await page.goto('/job/hall');
  await site.openRecordPage();
  const archive = await site.writeArchive();
  const zip = new Blob([await readFile(await archive.path())]);
  expect(await verify(zip)).toMatchObject({ verdict: 'as-written', findings: [] });
  expect(Buffer.from(await zip.arrayBuffer()).includes(`data/sounds/${note!.sound.sha256}.wav`)).toBe(true);
});

test('held down it records until it is let go; a second page of the book leaves it alone; going on to another page ends it and keeps it', async ({
  page,
  context,
}) => {
  const site = await atVoice(page);
  const { x, y, width, height } = (await key(site, 'talk').boundingBox())!;
  await page.mouse.move(x + width / 2, y + height / 2);
  await page.mouse.down();
  await untilSeconds(site, 1);
  await page.mouse.up();
  await expect(site.saved).toBeVisible();
  expect(await storedNotes(page)).toMatchObject([{ cut: false }]);

  await key(site, 'talk').click();
  await untilOnDisk(site, 1);
  const other = new Site(await context.newPage());
  await other.openJobs();
  await other.openJob(ROOM.name);
  expect(await storedNotes(other.page)).toHaveLength(1);
  await other.page.close();

  await site.link('Back').click();
  await page.getByTestId('section').waitFor();
  await expect.poll(() => storedNotes(page)).toMatchObject([{ cut: false }, { cut: false }]);
  await expect.poll(() => piecesOnDisk(page)).toBe(0);
});

test('a call takes the microphone away: what was said until then is kept, marked as cut off', async ({ page }) => {
  await page.addInitScript(() => {
    const ask = navigator.mediaDevices.getUserMedia.bind(navigator.mediaDevices);
    navigator.mediaDevices.getUserMedia = async (wanted) => {
      const stream = await ask(wanted);
      Object.assign(globalThis, { track: stream.getTracks()[0] });
      return stream;
    };
  });
  const site = await atVoice(page);
  await key(site, 'talk').click();
  await untilSeconds(site, 1);
  // What phones do first when a call comes in.
  await page.evaluate(() => (globalThis as unknown as { track: MediaStreamTrack }).track.dispatchEvent(new Event('mute')));
  await expect(site.fault('microphone-lost')).toContainText(site.say(m.fault_microphone_lost));
  await expect(page.getByRole('listitem')).toContainText(site.say(m.sound_cut));
  const [note] = await storedNotes(page);
  expect(note).toMatchObject({ cut: true });
  expect(inPython(note!.file).frames).toBe(Math.floor((note!.sound.bytes - 44) / 2));
});

test('storage full while recording: said at once, the sound leaves as a file, and is kept once there is room', async ({
  page,
  baseURL,
}) => {
  const quota = await page.context().newCDPSession(page);
  // Room for a job and a few seconds of sound.
  await quota.send('Storage.overrideQuotaForOrigin', { origin: baseURL!, quotaSize: 300_000 });
  const site = await atVoice(page);
  await key(site, 'talk').click();
  await expect(site.fault('sound-not-on-disk')).toContainText(site.say(m.sound_not_on_disk_full), { timeout: 60_000 });
  const before = await seconds(site);
  await untilSeconds(site, before + 1);
  await key(site, 'stop').click();
  await expect(site.fault('not-saved-full')).toBeVisible();
  expect(await storedNotes(page)).toEqual([]);

  const [download] = await Promise.all([page.waitForEvent('download'), site.button(site.say(m.save_as_files)).click()]);
  expect(download.suggestedFilename()).toBe('not-saved-1.wav');
  const file = await readFile(await download.path());
  expect(inPython(file)).toMatchObject({ rate: 16_000, channels: 1, width: 2 });
  expect(inPython(file).frames).toBeGreaterThanOrEqual((before + 1) * 16_000);

  await quota.send('Storage.overrideQuotaForOrigin', { origin: baseURL! });
  await site.button(site.say(m.save_again)).click();
  await expect(site.saved).toBeVisible();
  await expect(site.fault('not-saved-full')).toHaveCount(0);
  const [note] = await storedNotes(page);
  expect(note!.file.equals(file)).toBe(true);
  expect(await piecesOnDisk(page)).toBe(0);
});

// Moments within a recording, in seconds, any: all processes of the browser are killed, nothing gets to close a file.
const KILLED_AFTER = [2 + 2 * Math.random()];

test('the browser killed in the middle of a recording: at the next start all but its last second is a note marked as cut off', async ({
  baseURL,
}) => {
  const profile = await mkdtemp(join(tmpdir(), 'layerbook-voice-'));
  const flags = ['--use-fake-device-for-media-stream'];
  let voice = '';
  try {
    for (const [round, after] of KILLED_AFTER.entries()) {
      const { page, kill } = await startKillable(profile, flags);
      let [shown, onDisk] = [0, 0];
      try {
        const site = new Site(page);
        if (round === 0) {
          await page.goto(baseURL!);
          voice = `${baseURL}/job/${await site.startJob(ROOM)}/voice`;
        }
        await page.goto(voice);
        await key(site, 'talk').click();
        await untilSeconds(site, 1);
        await pause((after - 1) * 1000);
        shown = await seconds(site);
        onDisk = await piecesOnDisk(page);
      } finally {
        await kill();
      }
      const next = await startKillable(profile, flags);
      try {
        const site = new Site(next.page);
        await next.page.goto(baseURL!);
        await expect(site.fault('sound-cut-off')).toContainText(ROOM.name);
        const notes = await storedNotes(next.page);
        expect(notes).toHaveLength(round + 1);
        const note = notes.at(-1)!;
        const heard = inPython(note.file);
        expect(note).toMatchObject({ cut: true, ms: Math.floor(heard.frames / 16) });
        // Nothing the disk had acknowledged is missing, and of what the page showed as past no more than one second.
        expect(note.ms, `killed after ${after} s`).toBeGreaterThanOrEqual(Math.max(onDisk, shown - 1) * 1000);
        expect(heard.peak).toBeGreaterThan(300);
        expect(await piecesOnDisk(next.page)).toBe(0);
        await site.link(site.say(m.sound_listen)).click();
        await expect(next.page.getByRole('listitem').first()).toContainText(site.say(m.sound_cut));
        await expect(next.page.getByRole('button', { name: /^Play/ })).toHaveCount(round + 1);
      } finally {
        await next.kill();
      }
    }
  } finally {
    await rm(profile, { recursive: true, force: true });
  }
});

test('the page crashed: said on the first page, and gone when understood', async ({ page, context }) => {
  const site = await atVoice(page);
  await key(site, 'talk').click();
  const onDisk = await untilOnDisk(site, 2);
  const gone = page.waitForEvent('crash');
  const session = await context.newCDPSession(page);
  session.send('Page.crash').catch(() => undefined);
  await gone;
  const next = new Site(await context.newPage());
  await next.openJobs();
  await expect(next.fault('sound-cut-off')).toContainText(ROOM.name);
  const [note] = await storedNotes(next.page);
  expect(note).toMatchObject({ cut: true });
  expect(note!.ms).toBeGreaterThanOrEqual(onDisk * 1000);
  await next.button(next.say(m.understood)).click();
  await expect(next.fault('sound-cut-off')).toHaveCount(0);
  await next.openJobs();
  await expect(next.fault('sound-cut-off')).toHaveCount(0);
  expect(await storedNotes(next.page)).toHaveLength(1);
});
