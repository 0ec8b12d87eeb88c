import { fileURLToPath } from 'node:url';
import { MicrophoneError, type Microphone, type MicrophoneFault } from '#lib/device/capture/microphone.ts';
import { Book } from '#lib/record/book.ts';
import { Drafts } from '#lib/record/drafts.ts';
import { known, type Draft } from '#lib/record/kinds.ts';
import { MemoryShelf } from '#lib/record/memory-shelf.ts';
import { Ears } from '#lib/state/ears.ts';
import { OpenJob } from '#lib/state/job.svelte.ts';
import { Recording } from '#lib/state/recording.svelte.ts';
import { Sounds } from '#lib/state/sounds.svelte.ts';
import type { Heard, Question } from '#lib/voice/hearing.ts';
import type { Language } from '#lib/voice/vocabulary.ts';
import { Listener } from '#lib/work/listener.ts';
import { Previews } from '#lib/work/previews.ts';
import { overwriteGetLocale } from '#lib/words/compiled/runtime.js';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { readAddress } from '../../../src/routes/(book)/job/[id]/read/address.ts';
import { PadState } from '../../../src/routes/(book)/job/[id]/read/on-pad.svelte.ts';
import { outcomeText, unheardText, wayOn } from '../../../src/routes/(book)/job/[id]/read/spoken-text.ts';
import { SpokenState, type Unheard } from '../../../src/routes/(book)/job/[id]/read/spoken.svelte.ts';
import { writerOf } from '../../fixtures/small-job.ts';
import { clip, silentRoom } from '../../speech/clips.ts';

let locale: Language = 'en';
overwriteGetLocale(() => locale);
afterAll(() => overwriteGetLocale(() => 'en'));

const surface = (id: string, name: string): Draft => ({
  kind: 'surface',
  data: { surface: id, name, place: 'wall', system: 'sheet-and-liquid' },
});
const limit = { limit: 'l', what: 'wet-film', min: '18', max: '40', unit: 'mil', source: { kind: 'data-sheet', text: 'page 2' } } as const;
const NAMES = { en: ['North wall', 'Shower floor'], es: ['Pared norte', 'Piso de la ducha'] } as const;
const hall = (): readonly Draft[] => [
  { kind: 'job', data: { name: 'Hall bath', address: '', units: 'in', lang: locale } },
  surface('north', NAMES[locale][0]),
  surface('floor', NAMES[locale][1]),
  { kind: 'limit', data: limit },
  { id: 'run', kind: 'run-start', data: { step: 'liquid-coat', surfaces: ['north', 'floor'], coat: 1 } },
];

const FAN = { noise: 'fan', snrDb: 20 } as const;
/** For recognisers that do not listen to it. */
const ROOM = silentRoom(1, 'fan', 1);

/** The pad of a wet film while its step is open: `say` speaks one phrase into it, from the key pressed to what is made of it. */
async function padOf(
  ears: (phrase: () => string) => Pick<Ears, 'begin' | 'hears'>,
  spokenAs: (phrase: string) => Float32Array = () => ROOM,
  refused: () => MicrophoneFault | null = () => null,
) {
  const shelf = new MemoryShelf();
  const writer = writerOf('phone-a', 'ana', 7);
  const book = new Book(shelf);
  const job = new OpenJob('hall', { book, writer });
  expect(await job.add(hall())).toMatchObject({ ok: true });
  const drafts = new Drafts(shelf);
  const desk = { open: async () => ({ shelf, book, writer, drafts, previews: new Previews(shelf) }), job: async () => job };
  const sounds = new Sounds(desk);
  let phrase = '';
  const open = async (_: number, onSound: (samples: Float32Array) => void): Promise<Microphone> => {
    const fault = refused();
    if (fault !== null) throw new MicrophoneError(fault);
    return { lost: new Promise(() => undefined), stop: async () => onSound(spokenAs(phrase)) };
  };
  const recording = new Recording(desk, sounds, open);
  const address = readAddress(new URLSearchParams('what=wet-film&surface=floor&run=run'), job.state);
  const pad = new PadState(job, address);
  await pad.open(drafts, null);
  const spoken = new SpokenState(job, address, pad, job.state.surfaces, {
    ears: ears(() => phrase),
    recording,
    sounds,
    lang: () => locale,
  });
  return {
    spoken,
    say: async (text: string) => {
      phrase = text;
      await spoken.press();
      await spoken.release();
      const { tone, back } = outcomeText(spoken.now, pad.last?.said ?? null, locale);
      return [tone, back];
    },
    kept: () =>
      job.entries.flatMap((entry) => {
        const view = known(entry);
        return view.kind === 'reading' || view.kind === 'voice' || view.kind === 'withdrawal' ? [view] : [];
      }),
  };
}

const valuesOf = (views: Awaited<ReturnType<typeof padOf>>['kept']) =>
  views().flatMap((view) =>
    view.kind === 'reading' ? [[view.data.said.value, view.data.surface, view.data.coat, view.data.confirmedHow]] : [],
  );

let listener: Listener;
beforeAll(async () => {
  listener = await Listener.open(fileURLToPath(new URL('../../../static/voice/en-us', import.meta.url)));
});

/** Half a second of work for each clip, and a busy machine is no fault of them. */
const PATIENT = { timeout: 300_000 };

test('hands-free, all by voice: kept, dropped, misunderstood, asked about, taken back; each with its tone', PATIENT, async () => {
  // What is said twice where the same is expected is heard once.
  const before = new Map<string, Heard>();
  const bundled = (phrase: () => string) => ({
    warm: () => undefined,
    hear: async (samples: Float32Array, question: Question) => {
      const key = `${phrase()} ${JSON.stringify(question)}`;
      const heard = before.get(key) ?? listener.hear(samples, question);
      before.set(key, heard);
      return heard;
    },
  });
  const { say, kept, spoken } = await padOf(
    (phrase) => new Ears(bundled(phrase), null),
    (phrase) => clip(phrase, 'slt', FAN, 1),
  );
  const of22 = 'Wet at twenty-two, dry at twenty-four thousandths of an inch.';
  expect(await say('coat two, north wall, two two mils')).toEqual(['heard', of22]);
  expect(valuesOf(kept)).toEqual([]);
  expect(await say('that is right')).toEqual(['saved', null]);
  expect(valuesOf(kept)).toEqual([['22', 'north', 2, 'voice']]);

  await say('two eight mils');
  expect(await say('that is wrong')).toEqual(['heard', null]);
  // "Right" with nothing to be right.
  expect((await say('that is right'))[0]).toBe('unheard');

  // What is not understood does not lose the value that stands there.
  await say('two eight mils');
  expect(await say('where is the other bucket')).toEqual(['unheard', null]);
  expect(await say('that is right')).toEqual(['saved', null]);
  expect(valuesOf(kept)).toHaveLength(2);

  // Outside its limit: no word of mouth keeps it.
  expect((await say('sixty five mils'))[1]).toContain('outside the limit');
  expect((await say('that is right'))[0]).toBe('heard');
  expect(valuesOf(kept)).toHaveLength(2);
  // A second touch does.
  await spoken.confirm('touch');
  expect(valuesOf(kept)).toHaveLength(2);
  expect(spoken.asked).toBe(true);
  // "Undo" means the value that stands there, and only then the last one in the log.
  expect(await say('undo the last one')).toEqual(['heard', null]);
  expect(kept().some(({ kind }) => kind === 'withdrawal')).toBe(false);
  expect(await say('undo the last one')).toEqual(['heard', expect.stringContaining('Taken back')]);
  expect(kept().filter(({ kind }) => kind === 'withdrawal')).toHaveLength(1);
  expect(spoken.now).toMatchObject({ is: 'undone', said: { value: '28' } });

  // Every phrase is a voice note, whatever was made of it.
  expect(kept().filter(({ kind }) => kind === 'voice')).toHaveLength(12);
});

// There is no Spanish model, so the words come from what stands for the browser's own recogniser.
const platform = (phrase: () => string): Pick<Ears, 'begin' | 'hears'> => ({
  hears: async () => true,
  begin: () => ({
    end: async () => ({ heard: { words: phrase(), alternatives: [], engine: 'platform', version: 'none' }, second: [] }),
  }),
});

test('in Spanish: the same words come to the same, and all that is said back is Spanish', async () => {
  locale = 'es';
  try {
    const { say, kept, spoken } = await padOf(platform);
    const of22 = 'Mojado en veintidós, seco en veinticuatro milésimas de pulgada.';
    expect(await say('mano dos, pared norte, dos dos mils')).toEqual(['heard', of22]);
    expect(await say('eso es correcto')).toEqual(['saved', null]);
    expect(valuesOf(kept)).toEqual([['22', 'north', 2, 'voice']]);
    expect(await say('sesenta y cinco mils')).toEqual(['heard', expect.stringContaining('Está fuera del límite')]);
    expect((await say('eso es correcto'))[0]).toBe('heard');
    expect(await say('eso no es')).toEqual(['heard', null]);
    expect(await say('deshacer')).toEqual(['heard', `Retirada: ${of22}`]);
    expect(await say('deshacer')).toEqual(['unheard', 'Aquí no hay un valor hablado que retirar.']);
    await say('terminar mano de líquido');
    const { now } = spoken;
    expect(now.is === 'way-on' && wayOn(now.draft, 'hall', 'wet-film', 'run')?.word).toBe('Terminar: Mano de líquido');
  } finally {
    locale = 'en';
  }
});

test.each<[words: string, why: Unheard, said: string]>([
  ['', 'nothing', 'No se oyó con bastante claridad.'],
  ['quince mil', 'no-unit', 'Diga también la unidad, como en: catorce mils.'],
  ['dos dos micras', 'other-unit', 'Se oyó: dos dos micras. Esto se lee en mils.'],
  ['la otra cubeta', 'other-words', 'Se oyó: la otra cubeta. Eso no es un valor de esta medida.'],
  ['dos tres mils', 'no-tooth', 'El peine no tiene ese diente'],
  ['pelicula seca dos dos mils', 'other-measure', 'Es otra medida; elíjala primero arriba.'],
])('in Spanish "%s" is no value (%s), and why is said in Spanish', async (words, why, said) => {
  locale = 'es';
  try {
    const { say, spoken } = await padOf(platform);
    await say(words);
    expect(spoken.now).toEqual({ is: 'unheard', missed: { why, words } });
    expect(unheardText({ why, words }, spoken.question)).toContain(said);
  } finally {
    locale = 'en';
  }
});

test('without a microphone it says so on the pad; a value that stands there is not lost over it', async () => {
  let refused: MicrophoneFault | null = 'refused';
  const hear = async () => ({ words: 'two two mils', alternatives: [], engine: 'fixed', version: '1' });
  const { say, kept, spoken } = await padOf(
    () => new Ears({ warm: () => undefined, hear }, null),
    () => ROOM,
    () => refused,
  );
  await say('two two mils');
  expect(spoken.now).toEqual({ is: 'unheard', missed: { why: 'microphone-refused', words: '' } });
  expect(kept()).toEqual([]);

  refused = null;
  await say('two two mils');
  expect(spoken.now).toMatchObject({ is: 'pending', missed: null });
  refused = 'none';
  await say('that is right');
  expect(spoken.now).toMatchObject({ is: 'pending', pending: { said: { value: '22' } }, missed: { why: 'microphone-none' } });
});

test('in Spanish, where nothing understands it: said plainly, and the clip is kept', async () => {
  locale = 'es';
  try {
    const { say, kept, spoken } = await padOf(
      () => new Ears({ warm: () => undefined, hear: () => Promise.reject(new Error('no model')) }, null),
    );
    expect(await say('dos dos mils')).toEqual(['unheard', null]);
    const missed = { why: 'no-language', words: '' } as const;
    expect(spoken.now).toEqual({ is: 'unheard', missed });
    expect(unheardText(missed, spoken.question)).toContain('no reconoce habla en español sin red');
    expect(kept().map(({ kind }) => kind)).toEqual(['voice']);
  } finally {
    locale = 'en';
  }
});
