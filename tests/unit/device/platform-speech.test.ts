import { hearsOnDevice, listenOnDevice, type PlatformConstructor } from '#lib/device/platform-speech.ts';
import { expect, test } from 'vitest';

type Act = 'hears' | 'never-starts' | 'never-ends' | 'refuses' | 'throws';

/** A platform's recogniser that does as told. */
function stub(act: Act, parts: readonly (readonly string[])[] = [['two two mils', 'to to mills']]): PlatformConstructor {
  return class extends EventTarget {
    lang = '';
    continuous = false;
    maxAlternatives = 1;
    start() {
      if (act === 'throws') throw new DOMException('already started', 'InvalidStateError');
      if (act === 'refuses') setTimeout(() => this.dispatchEvent(new Event('error')));
      if (act === 'hears' || act === 'never-ends') setTimeout(() => this.dispatchEvent(new Event('start')));
    }
    stop() {
      if (act !== 'hears' && act !== 'never-ends') return;
      const results = parts.map((part) => part.map((transcript) => ({ transcript })));
      setTimeout(() => {
        this.dispatchEvent(Object.assign(new Event('result'), { results }));
        if (act === 'hears') this.dispatchEvent(new Event('end'));
      });
    }
    abort() {
      // It says nothing any more.
    }
  };
}

test.each<[act: Act, heard: readonly string[]]>([
  ['hears', ['two two mils', 'to to mills']],
  ['never-starts', []],
  // What came before it hung is kept.
  ['never-ends', ['two two mils', 'to to mills']],
  ['refuses', []],
  ['throws', []],
])('a platform that %s: %j', async (act, heard) => {
  const listening = listenOnDevice('en', stub(act), { START_MS: 100, END_MS: 100 });
  await new Promise((later) => setTimeout(later, 20));
  expect(await listening.end()).toEqual(heard);
});

test('what comes in parts is one phrase, in each way its last part may have been said', async () => {
  const listening = listenOnDevice(
    'en',
    stub('hears', [
      ['coat two', 'goat two'],
      ['two two mils', 'to do mills'],
    ]),
    { START_MS: 100, END_MS: 100 },
  );
  expect(await listening.end()).toEqual(['coat two two two mils', 'coat two to do mills']);
});

test.each<[what: string, available: PlatformConstructor['available'], hears: boolean]>([
  ['a browser that cannot say so', undefined, false],
  ['a pack on the phone', async () => 'available', true],
  ['a pack to be fetched', async () => 'downloadable', false],
  ['none', async () => 'unavailable', false],
  ['a refusal', async () => Promise.reject(new Error('no')), false],
])('%s', async (_, available, hears) => {
  const constructor = Object.assign(stub('hears'), available === undefined ? {} : { available });
  expect(await hearsOnDevice('es', constructor)).toBe(hears);
});

test('no recogniser at all', async () => {
  expect(await hearsOnDevice('en', null)).toBe(false);
});
