import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import sharp from 'sharp';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { photograph } from '../../camera/develop.ts';
import { type LapPhoto, lapPhoto } from '../../camera/lap.ts';
import { random } from '../../sim/random.ts';
import { asked } from './terminal.ts';

const folder = mkdtempSync(join(tmpdir(), 'layerbook-measure-'));
afterAll(() => rmSync(folder, { recursive: true }));

const layerbook = (...args: string[]) => asked(folder, args);

let lap: LapPhoto;

beforeAll(async () => {
  const chance = random(77);
  lap = lapPhoto({ width: 1600, mmPerPx: [0.24, 0.26], tiltDeg: [5, 20] }, chance);
  const { jpeg } = await photograph(lap.camera, lap.scene, lap.film, chance);
  writeFileSync(join(folder, 'lap.jpg'), jpeg);
  // The same photo as a phone held upright writes it: turned bytes and a tag that says so.
  writeFileSync(
    join(folder, 'turned.jpg'),
    await sharp(jpeg).rotate(270).withMetadata({ orientation: 6 }).jpeg({ quality: 90 }).toBuffer(),
  );
  writeFileSync(join(folder, 'cut.jpg'), jpeg.subarray(0, jpeg.length / 2));
  const json = (name: string, value: unknown) =>
    writeFileSync(join(folder, name), typeof value === 'string' ? value : JSON.stringify(value));
  const segments = [...lap.segments.map(({ from, to }) => ({ from, to })), { from: [-5, 4], to: [9, 9] }];
  // As a program writes it that knows no missing field, and an editor that marks its coding.
  json('card.json', `\uFEFF${JSON.stringify({ reference: { kind: 'card', corners: null, barMm: null }, segments })}`);
  json('frame.json', { reference: { kind: 'rectangle', widthMm: 140, heightMm: 90, corners: lap.corners }, segments });
  json('not.json', '{');
  json('kind.json', { reference: { kind: 'tape' }, segments: [] });
  json('point.json', { reference: { kind: 'card' }, segments: [{ from: [1, 2], to: [3, null] }] });
  json('size.json', { quad: lap.corners, widthMm: 0, heightMm: 5, film: [], bare: [] });
  json('same.json', { quad: lap.corners, widthMm: 140, heightMm: 90, film: [lap.segments[0]!.from], bare: [lap.segments[0]!.from] });
});

describe('layerbook measure length', () => {
  it.each(['card.json', 'frame.json'])(
    '%s: lengths in the order asked for, a refusal with reason and remedy among them',
    async (points) => {
      for (const photo of ['lap.jpg', 'turned.jpg']) {
        const { exit, answer } = await layerbook('measure', 'length', photo, '--points', points);
        expect(exit).toBe(0);
        const { mmPerPx, segments } = answer as { mmPerPx: number; segments: Record<string, number | string>[] };
        expect(mmPerPx).toBeGreaterThan(0.2);
        expect(mmPerPx).toBeLessThan(0.35);
        expect(segments).toHaveLength(lap.segments.length + 1);
        for (const [i, { lengthMm }] of lap.segments.entries()) {
          expect(Object.keys(segments[i]!)).toEqual(['lengthMm', 'lowMm', 'highMm', 'planeShown', 'wideLowMm', 'wideHighMm']);
          expect(segments[i]!['planeShown']).toBe(true);
          expect(segments[i]!['lowMm']).toBeLessThan(lengthMm);
          expect(segments[i]!['highMm']).toBeGreaterThan(lengthMm);
        }
        expect(segments.at(-1)).toEqual({ refused: 'outside-picture', message: expect.stringContaining('Tap it again') as string });
      }
    },
  );

  const wrong: [args: string[], field: string, code: string][] = [
    [['length', 'absent.jpg', '--points', 'card.json'], 'FILE', 'no-such-file'],
    [['length', 'cut.jpg', '--points', 'card.json'], 'FILE', 'not-an-image'],
    [['length', 'card.json', '--points', 'card.json'], 'FILE', 'not-an-image'],
    [['length', 'lap.jpg', '--points', 'absent.json'], '--points', 'no-such-file'],
    [['length', 'lap.jpg', '--points', 'not.json'], '--points', 'not-json'],
    [['length', 'lap.jpg', '--points', 'kind.json'], 'reference.kind', 'unknown-kind'],
    [['length', 'lap.jpg', '--points', 'point.json'], 'segments[0].to', 'not-a-point'],
    [['coverage', 'lap.jpg', '--points', 'size.json'], 'widthMm', 'not-a-size'],
    [['length', 'lap.jpg'], 'COMMAND', 'bad-arguments'],
    [['length'], 'COMMAND', 'bad-arguments'],
    [['width', 'lap.jpg'], 'COMMAND', 'unknown-command'],
  ];
  it.each(wrong)('%j: exit 2, %s is named', async (args, field, code) => {
    const { exit, answer } = await layerbook('measure', ...args);
    expect({ exit, answer }).toEqual({ exit: 2, answer: { error: { field, code, message: expect.any(String) as string } } });
  });
});

it('layerbook measure coverage: a refusal with reason and remedy', async () => {
  const { exit, answer } = await layerbook('measure', 'coverage', 'lap.jpg', '--points', 'same.json');
  expect(exit).toBe(0);
  expect(answer).toEqual({ refused: 'low-contrast', message: expect.stringContaining('by eye') as string });
});
