import { execFileSync } from 'node:child_process';
import { readWav, SECOND_BYTES, soundMs, wavHeader, wavOf } from '#lib/record/wav.ts';
import fc from 'fast-check';
import { describe, expect, it, test } from 'vitest';

const bytesOf = (...parts: (string | readonly number[] | Uint8Array)[]) =>
  Uint8Array.from(parts.flatMap((part) => (typeof part === 'string' ? [...part].map((c) => c.charCodeAt(0)) : [...part])));
const u16 = (n: number) => [n & 255, n >> 8];
const u32 = (n: number) => [n & 255, (n >> 8) & 255, (n >> 16) & 255, (n >>> 24) & 255];
const fmt = (change: Partial<Record<'coding' | 'channels' | 'rate' | 'bits' | 'frame' | 'perSecond' | 'size', number>> = {}) => {
  const { coding = 1, channels = 1, rate = 16_000, bits = 16 } = change;
  const { frame = (channels * bits) / 8, size = 16 } = change;
  const { perSecond = frame * rate } = change;
  return bytesOf('fmt ', u32(size), u16(coding), u16(channels), u32(rate), u32(perSecond), u16(frame), u16(bits));
};
const data = (pcm: Uint8Array, says = pcm.length) => bytesOf('data', u32(says), pcm);
const riff = (...chunks: Uint8Array[]) => {
  const body = bytesOf('WAVE', ...chunks);
  return bytesOf('RIFF', u32(body.length), body);
};
const pcm = Uint8Array.from({ length: 3200 }, (_, i) => (i * 31) & 255);

/** What Python's standard library, which is not ours, makes of a file: its parameters, and the SHA-256 of its samples. */
function inPython(file: Uint8Array): { rate: number; channels: number; width: number; frames: number; sha256: string } {
  const script = `
import hashlib, io, json, sys, wave
with wave.open(io.BytesIO(sys.stdin.buffer.read())) as w:
    p = w.getparams()
    print(json.dumps({"rate": p.framerate, "channels": p.nchannels, "width": p.sampwidth, "frames": p.nframes,
                      "sha256": hashlib.sha256(w.readframes(p.nframes)).hexdigest()}))`;
  return JSON.parse(execFileSync('python3', ['-c', script], { input: file, encoding: 'utf8' })) as ReturnType<typeof inPython>;
}
const sha256 = async (bytes: Uint8Array) => Buffer.from(await crypto.subtle.digest('SHA-256', bytes.slice())).toString('hex');

describe('a file we write', () => {
  it.each([0, 2, 3_198, SECOND_BYTES, 3 * SECOND_BYTES + 802])('of %d bytes of sound is what Python reads', async (length) => {
    const sound = Uint8Array.from({ length }, (_, i) => (i * 7 + (i >> 8)) & 255);
    const frames = length / 2;
    expect(inPython(wavOf([sound]))).toEqual({ rate: 16_000, channels: 1, width: 2, frames, sha256: await sha256(sound) });
  });

  it('is what Python writes, byte for byte', () => {
    const script = `
import io, sys, wave
out = io.BytesIO()
with wave.open(out, "wb") as w:
    w.setnchannels(1); w.setsampwidth(2); w.setframerate(16000)
    w.writeframes(sys.stdin.buffer.read())
sys.stdout.buffer.write(out.getvalue())`;
    expect(new Uint8Array(execFileSync('python3', ['-c', script], { input: pcm }))).toEqual(wavOf([pcm]));
  });

  it('does not show where its pieces meet', () => {
    expect(wavOf([pcm.subarray(0, 1_000), new Uint8Array(), pcm.subarray(1_000)])).toEqual(wavOf([pcm]));
  });

  it('is read back by us', () => {
    expect(readWav(wavOf([pcm]))).toEqual({ ok: true, value: { rateHz: 16_000, channels: 1, bits: 16, pcm, ms: 100, whole: true } });
  });

  // Sizes in the header have 32 bits and count 36 bytes besides the sound.
  it.each([-2, 1, 1.5, 4_294_967_260, NaN])('of %d bytes is our own mistake', (length) => {
    expect(() => wavHeader(length)).toThrow('whole samples');
  });
  it('of the most the format can count has a header', () => {
    expect(wavHeader(4_294_967_258)).toHaveLength(44);
  });
});

test.each([
  [0, 0],
  [2, 0],
  [32, 1],
  [SECOND_BYTES, 1_000],
  [SECOND_BYTES - 2, 999],
  [15 * 60 * SECOND_BYTES, 900_000],
])('%d bytes last %d ms', (bytes, ms) => expect(soundMs(bytes)).toBe(ms));

describe('a file somebody else wrote', () => {
  it.each<[what: string, file: Uint8Array, wav: object]>([
    ['with a chunk before its format', riff(bytesOf('LIST', u32(3), 'abc', [0]), fmt(), data(pcm)), { ms: 100, whole: true, pcm }],
    ['with a chunk between format and sound', riff(fmt(), bytesOf('fact', u32(4), u32(1600)), data(pcm)), { ms: 100, whole: true, pcm }],
    ['with a longer format', riff(bytesOf(fmt({ size: 18 }), [0, 0]), data(pcm)), { ms: 100, whole: true }],
    ['in stereo, 8 bit', riff(fmt({ channels: 2, bits: 8, rate: 8_000 }), data(pcm)), { channels: 2, bits: 8, rateHz: 8_000, ms: 200 }],
    ['at 44,100 a second', riff(fmt({ rate: 44_100 }), data(pcm)), { rateHz: 44_100, ms: 36 }],
    ['cut short', riff(fmt(), data(pcm, 64_000)), { ms: 100, whole: false, pcm }],
    ['cut within a sample', riff(fmt(), data(pcm.subarray(0, 3_199), 3_200)), { whole: false, pcm: pcm.subarray(0, 3_198) }],
    ['with half a sample too many', riff(fmt(), data(pcm.subarray(0, 3_199))), { whole: false, pcm: pcm.subarray(0, 3_198) }],
    ['whose length was never filled in', riff(fmt(), data(pcm, 0xffff_ffff)), { ms: 100, whole: false }],
    ['with something after the sound', riff(fmt(), data(pcm), bytesOf('LIST', u32(2), 'ab')), { ms: 100, whole: true, pcm }],
    ['in the middle of a larger buffer', bytesOf([1, 2, 3], wavOf([pcm])).subarray(3), { ms: 100, whole: true, pcm }],
  ])('%s is read', (_, file, wav) => {
    expect(readWav(file)).toMatchObject({ ok: true, value: wav });
  });

  it.each<[what: string, file: Uint8Array, fault: object]>([
    ['nothing', bytesOf(), { code: 'not-a-wav' }],
    ['a picture in the same container', bytesOf('RIFF', u32(4), 'WEBPVP8 '), { code: 'not-a-wav' }],
    ['an MP3', bytesOf('ID3', new Array<number>(60).fill(0)), { code: 'not-a-wav' }],
    ['coded, A-law', riff(fmt({ coding: 6, bits: 8 }), data(pcm)), { code: 'not-pcm', format: 6 }],
    ['floating point', riff(fmt({ coding: 3, bits: 32 }), data(pcm)), { code: 'not-pcm', format: 3 }],
    ['without a format', riff(data(pcm)), { code: 'damaged' }],
    ['without sound', riff(fmt()), { code: 'damaged' }],
    ['with its format cut', riff(fmt().subarray(0, 20)), { code: 'damaged' }],
    ['with a format too short', riff(bytesOf('fmt ', u32(4), u32(1)), data(pcm)), { code: 'damaged' }],
    ['of no samples a second', riff(fmt({ rate: 0 }), data(pcm)), { code: 'damaged' }],
    ['of no channel', riff(fmt({ channels: 0 }), data(pcm)), { code: 'damaged' }],
    ['whose sample is not as wide as it says', riff(fmt({ frame: 4, perSecond: 64_000 }), data(pcm)), { code: 'damaged' }],
    ['whose second is not as long as it says', riff(fmt({ perSecond: 16_000 }), data(pcm)), { code: 'damaged' }],
  ])('%s is refused', (_, file, fault) => {
    expect(readWav(file)).toEqual({ ok: false, fault });
  });
});

test('no bytes make the reader throw, and what it gives lies within them', () => {
  const start = bytesOf(riff(fmt(), data(pcm.subarray(0, 20))));
  fc.assert(
    fc.property(fc.nat(start.length), fc.uint8Array({ maxLength: 80 }), (at, rest) => {
      const file = bytesOf(start.subarray(0, at), rest);
      const read = readWav(file);
      expect(read.ok ? read.value.pcm.length <= file.length && read.value.ms >= 0 : read.fault.code.length > 0).toBe(true);
    }),
    { seed: 20260302, numRuns: 2_000 },
  );
});
