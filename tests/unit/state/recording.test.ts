import { MicrophoneError, type Microphone } from '#lib/device/capture/microphone.ts';
import { pcm16 } from '#lib/device/capture/pcm.ts';
import { holdAlone } from '#lib/device/store/alone.ts';
import { Book } from '#lib/record/book.ts';
import { Drafts } from '#lib/record/drafts.ts';
import { known } from '#lib/record/kinds.ts';
import { MemoryShelf } from '#lib/record/memory-shelf.ts';
import { ShelfError, type Shelf } from '#lib/record/shelf.ts';
import { SoundPieces } from '#lib/record/sound-pieces.ts';
import { readWav, SECOND_BYTES } from '#lib/record/wav.ts';
import { OpenJob } from '#lib/state/job.svelte.ts';
import { Recording } from '#lib/state/recording.svelte.ts';
import { Sounds } from '#lib/state/sounds.svelte.ts';
import { Previews } from '#lib/work/previews.ts';
import { describe, expect, it } from 'vitest';
import { writerOf } from '../../fixtures/small-job.ts';

const PLACE = { run: null, surfaces: ['back'] };
/** Half a second of a sound that never repeats within it. */
const HALF = Float32Array.from({ length: 8_000 }, (_, i) => Math.sin(i * i * 1e-5) / 8);
const LOUD = new Float32Array(1_600).fill(1);

/** A shelf that refuses writes to some drawers while told to. */
class Refusing implements Shelf {
  readonly #shelf = new MemoryShelf();
  refuse: readonly string[] = [];
  read: Shelf['read'] = (drawers, work) => this.#shelf.read(drawers, work);
  write: Shelf['write'] = (drawers, work) =>
    drawers.some((drawer) => this.refuse.includes(drawer))
      ? Promise.reject(new ShelfError('full', 'no room'))
      : this.#shelf.write(drawers, work);
}

/** A phone as it is after a start: nothing in memory, its store as the page before left it. */
function phone(shelf: Shelf = new MemoryShelf(), device = 'phone-a') {
  const writer = writerOf(device, 'ana', 7);
  const book = new Book(shelf);
  const jobs = new Map<string, OpenJob>();
  const desk = {
    open: async () => ({ shelf, book, writer, drafts: new Drafts(shelf), previews: new Previews(shelf) }),
    job: async (id: string) => {
      if (id === 'gone') return null;
      const job = jobs.get(id) ?? new OpenJob(id, { book, writer });
      jobs.set(id, job);
      return job;
    },
  };
  const sounds = new Sounds(desk);
  const mouth: { hear: (samples: Float32Array) => void; lose: () => void; last: Float32Array | null } = {
    hear: () => undefined,
    lose: () => undefined,
    last: null,
  };
  const open = async (_: number, onSound: (samples: Float32Array) => void): Promise<Microphone> => {
    mouth.hear = onSound;
    const lost = Promise.withResolvers<void>();
    mouth.lose = lost.resolve;
    return {
      lost: lost.promise,
      stop: async () => {
        if (mouth.last !== null) onSound(mouth.last);
      },
    };
  };
  return {
    shelf,
    desk,
    sounds,
    mouth,
    recording: new Recording(desk, sounds, open),
    pieces: new SoundPieces(shelf),
    newRecording: (other: typeof open) => new Recording(desk, sounds, other),
  };
}

/** The voice notes of a job, each with what its file holds. */
async function notes(job: OpenJob) {
  const views = job.entries.map((entry) => ({ id: entry.body.id, view: known(entry) }));
  return Promise.all(
    views
      .flatMap(({ id, view }) => (view.kind === 'voice' ? [{ id, data: view.data }] : []))
      .map(async ({ id, data }) => {
        const blob = await job.blob(data.sound.sha256);
        const bytes = new Uint8Array(await blob!.arrayBuffer());
        const wav = readWav(bytes);
        if (!wav.ok) throw new Error(wav.fault.code);
        return {
          id,
          ms: data.ms,
          cut: data.cut,
          surfaces: data.surfaces,
          says: data.sound.bytes,
          bytes: bytes.length,
          type: blob!.type,
          wav: wav.value,
        };
      }),
  );
}

/** However long a busy machine takes. */
const untilIdle = (recording: Recording) => expect.poll(() => recording.phase, { timeout: 50_000 }).toBe('idle');

/** Until what was asked of the store so far is answered. */
const settled = async () => {
  for (let i = 0; i < 50; i++) await Promise.resolve();
};

async function running(at = phone()) {
  const job = await at.desk.job('hall');
  await at.recording.start(job!, PLACE);
  expect(at.recording.phase).toBe('running');
  return { ...at, job: job! };
}

describe('a recording', () => {
  it('is kept whole, to the last sample, with where it belongs, and leaves no piece behind', async () => {
    const { recording, sounds, mouth, pieces, job } = await running();
    for (let i = 0; i < 5; i++) mouth.hear(HALF);
    mouth.last = HALF.subarray(0, 10);
    await recording.stop();
    const [note, ...more] = await notes(job);
    expect(more).toEqual([]);
    const samples = 5 * 8_000 + 10;
    expect(note).toMatchObject({
      ms: 2_500,
      cut: false,
      surfaces: ['back'],
      bytes: 44 + 2 * samples,
      says: 44 + 2 * samples,
      type: 'audio/wav',
    });
    expect(note!.wav).toMatchObject({ rateHz: 16_000, channels: 1, bits: 16, whole: true });
    const half = pcm16(HALF);
    expect(Buffer.compare(note!.wav.pcm, Buffer.concat([half, half, half, half, half, half.subarray(0, 20)]))).toBe(0);
    expect(sounds.news).toMatchObject({ ms: 2_500, cut: false });
    expect(recording.phase).toBe('idle');
    expect(await pieces.ids()).toEqual([]);
  });

  it('has each full second on disk while it runs', async () => {
    const { mouth, pieces } = await running();
    mouth.hear(HALF);
    await settled();
    expect(await pieces.ids()).toEqual([]);
    mouth.hear(HALF);
    mouth.hear(HALF);
    await settled();
    const [id] = await pieces.ids();
    const left = await pieces.read(id!);
    expect(left?.head).toEqual({ job: 'hall', run: null, surfaces: ['back'], ended: false });
    expect(left?.pieces.map((piece) => piece.length)).toEqual([SECOND_BYTES]);
  });

  it('belongs to what was touched last while it ran, also when it is found later', async () => {
    const { recording, mouth, pieces, job } = await running();
    mouth.hear(HALF);
    recording.moveTo({ run: 'run-1', surfaces: ['left', 'floor'] });
    mouth.hear(HALF);
    await settled();
    const [id] = await pieces.ids();
    expect((await pieces.read(id!))?.head).toMatchObject({ run: 'run-1', surfaces: ['left', 'floor'] });
    await recording.stop();
    expect(await notes(job)).toMatchObject([{ surfaces: ['left', 'floor'] }]);
    expect(job.entries.at(-1)!.body.run).toBe('run-1');
  });

  it('tells its length, and that it was too loud for a second after it was', async () => {
    const { recording, mouth } = await running();
    mouth.hear(HALF);
    expect([recording.ms, recording.tooLoud, recording.level.peak > 0]).toEqual([500, false, true]);
    mouth.hear(LOUD);
    expect([recording.ms, recording.tooLoud]).toEqual([600, true]);
    mouth.hear(HALF);
    expect(recording.tooLoud).toBe(true);
    mouth.hear(HALF);
    expect(recording.tooLoud).toBe(false);
  });

  it('whose microphone a call takes away is kept as far as it came, marked as cut off', async () => {
    const { recording, sounds, mouth, job } = await running();
    for (let i = 0; i < 3; i++) mouth.hear(HALF);
    mouth.lose();
    await untilIdle(recording);
    expect(recording.fault).toBe('lost');
    expect(sounds.news).toMatchObject({ ms: 1_500, cut: true });
    expect(await notes(job)).toMatchObject([{ ms: 1_500, cut: true }]);
  });

  it('forgotten in a pocket is closed at fifteen minutes and kept', async () => {
    const { recording, mouth, job } = await running();
    for (let i = 0; i < 15 * 60 * 2; i++) mouth.hear(HALF);
    await untilIdle(recording);
    expect(recording.longest).toBe(true);
    expect(await notes(job)).toMatchObject([{ ms: 900_000, cut: false }]);
  });

  it('of nothing is no note', async () => {
    const { recording, job } = await running();
    await recording.stop();
    expect(await notes(job)).toEqual([]);
    expect(recording.phase).toBe('idle');
  });

  it('cannot be started twice', async () => {
    const { recording, mouth, job } = await running();
    await recording.start(job, PLACE);
    mouth.hear(HALF);
    await recording.stop();
    expect(await notes(job)).toHaveLength(1);
  });
});

describe('a microphone', () => {
  it.each(['refused', 'none'] as const)('%s is said, and the recorder can be started again', async (fault) => {
    const at = phone();
    const recording = at.newRecording(() => Promise.reject(new MicrophoneError(fault)));
    const job = await at.desk.job('hall');
    await recording.start(job!, PLACE);
    expect([recording.fault, recording.phase]).toEqual([fault, 'idle']);
    await recording.start(job!, PLACE);
    expect(recording.fault).toBe(fault);
  });

  it('given up before it opened is given back when it comes, and what it hears then is nobody’s', async () => {
    const at = phone();
    const asked = Promise.withResolvers<void>();
    const opened = Promise.withResolvers<Microphone>();
    let hear: (samples: Float32Array) => void = () => undefined;
    const recording = at.newRecording((_, onSound) => {
      hear = onSound;
      asked.resolve();
      return opened.promise;
    });
    const job = await at.desk.job('hall');
    const starting = recording.start(job!, PLACE);
    await asked.promise;
    await recording.stop();
    expect(recording.phase).toBe('idle');
    let givenBack = false;
    opened.resolve({ lost: new Promise(() => undefined), stop: async () => void (givenBack = true) });
    await starting;
    hear(HALF);
    expect([givenBack, recording.phase, recording.ms]).toEqual([true, 'idle', 0]);
    expect(await notes(job!)).toEqual([]);
  });
});

describe('a store without room', () => {
  it('is said while recording; what is said meanwhile reaches the disk, without a gap, once there is room', async () => {
    const shelf = new Refusing();
    const { recording, mouth, pieces } = await running(phone(shelf));
    shelf.refuse = ['drafts'];
    for (let i = 0; i < 4; i++) mouth.hear(HALF);
    await settled();
    expect(recording.diskFault).toBe('full');
    expect(await pieces.ids()).toEqual([]);
    shelf.refuse = [];
    for (let i = 0; i < 2; i++) mouth.hear(HALF);
    await settled();
    expect(recording.diskFault).toBeNull();
    const [id] = await pieces.ids();
    expect((await pieces.read(id!))?.pieces).toHaveLength(3);
  });

  it('keeps the whole in memory as a file, and keeps the entry once there is room', async () => {
    const shelf = new Refusing();
    const { recording, sounds, mouth, pieces, job } = await running(phone(shelf));
    shelf.refuse = ['drafts', 'entries'];
    for (let i = 0; i < 3; i++) mouth.hear(HALF);
    await recording.stop();
    expect(sounds.held).toMatchObject([{ fault: { code: 'not-saved', why: 'full' } }]);
    expect(await notes(job)).toEqual([]);
    const [file] = sounds.heldFiles();
    const wav = readWav(new Uint8Array(await file!.arrayBuffer()));
    expect([file!.name, file!.type, wav.ok && wav.value.ms]).toEqual(['not-saved-1.wav', 'audio/wav', 1_500]);
    shelf.refuse = [];
    await sounds.retry();
    expect(sounds.held).toEqual([]);
    expect(await notes(job)).toMatchObject([{ ms: 1_500, cut: false }]);
    expect(await pieces.ids()).toEqual([]);
  });
});

describe('at the next start', () => {
  it('a recording whose page was killed is kept as far as it is on disk, marked as cut off, and its pieces are dropped after that', async () => {
    const { shelf, mouth, pieces } = await running();
    for (let i = 0; i < 7; i++) mouth.hear(HALF);
    await settled();
    const [id] = await pieces.ids();
    // The page of this test lives on and holds its recording. A copy of the pieces, which nobody holds, stands for one of a killed page.
    expect(await holdAlone(`layerbook-sound-${id!}`)).toBeNull();
    await copied(shelf, id!, 'left');
    const next = phone(shelf, 'phone-b');
    await next.sounds.recover();
    const job = await next.desk.job('hall');
    expect(await notes(job!)).toMatchObject([{ id: 'left', ms: 3_000, cut: true, surfaces: ['back'] }]);
    expect(next.sounds.found).toMatchObject([{ job: 'hall', ms: 3_000, cut: true }]);
    // The one still held by its page is left alone.
    expect(await pieces.ids()).toEqual([id]);
    next.sounds.acceptFound();
    expect(next.sounds.found).toEqual([]);
  });

  it('one that was ended, and whose entry is not there, is kept and not marked', async () => {
    const at = phone();
    await at.pieces.append('s-1', { job: 'hall', run: null, surfaces: [], ended: true }, 0, [pcm16(HALF)]);
    await at.sounds.recover();
    expect(await notes((await at.desk.job('hall'))!)).toMatchObject([{ id: 's-1', ms: 500, cut: false }]);
    expect(at.sounds.found).toMatchObject([{ cut: false }]);
  });

  it('one whose entry is there already is dropped without another entry, even when its job was opened before that', async () => {
    const at = phone();
    const job = (await at.desk.job('hall'))!;
    const other = phone(at.shelf);
    await other.pieces.append('s-1', { job: 'hall', run: null, surfaces: [], ended: false }, 0, [pcm16(HALF)]);
    await other.sounds.recover();
    await at.pieces.append('s-1', { job: 'hall', run: null, surfaces: [], ended: false }, 0, [pcm16(HALF)]);
    await at.sounds.recover();
    expect(await notes(job)).toHaveLength(1);
    expect(at.sounds.found).toEqual([]);
    expect(await at.pieces.ids()).toEqual([]);
  });

  it('one that cannot be kept stays on disk and in hand, and is kept later', async () => {
    const shelf = new Refusing();
    const at = phone(shelf);
    await at.pieces.append('s-1', { job: 'hall', run: null, surfaces: [], ended: false }, 0, [pcm16(HALF)]);
    shelf.refuse = ['entries'];
    await at.sounds.recover();
    expect(at.sounds.held).toHaveLength(1);
    expect(at.sounds.found).toEqual([]);
    expect(await at.pieces.ids()).toEqual(['s-1']);
    shelf.refuse = [];
    await at.sounds.retry();
    expect(await notes((await at.desk.job('hall'))!)).toMatchObject([{ ms: 500, cut: true }]);
    expect(await at.pieces.ids()).toEqual([]);
  });

  it('one of a job that is not on this phone is left as it is', async () => {
    const at = phone();
    await at.pieces.append('s-1', { job: 'gone', run: null, surfaces: [], ended: false }, 0, [pcm16(HALF)]);
    await at.sounds.recover();
    expect(await at.pieces.ids()).toEqual(['s-1']);
  });
});

/** The same pieces under another id, which no page holds. */
async function copied(shelf: Shelf, from: string, to: string): Promise<void> {
  const store = new SoundPieces(shelf);
  const left = (await store.read(from))!;
  await store.append(to, left.head, 0, left.pieces);
}
