import { lengthSaid, MISSES_MAX, percent } from '#lib/job/in-photo.ts';
import type { Entry } from '#lib/record/entry.ts';
import { known } from '#lib/record/kinds.ts';
import type { Coverage, PhotoArea, PhotoLength, Transfer } from '#lib/record/kinds/photo.ts';
import type { Quantity } from '#lib/record/kinds/reading.ts';
import { measureCoverage } from '#lib/vision/coverage.ts';
import { measureLengths } from '#lib/vision/length.ts';
import { METHOD_VERSION } from '#lib/vision/method.ts';
import type { Point, Quad, Raster } from '#lib/vision/raster.ts';
import type { Reference } from '#lib/vision/reference.ts';
import { measureTransfer } from '#lib/vision/transfer.ts';
import { decode } from './decode.ts';

type Figures = Readonly<Record<string, string>>;

/** A value computed in a photo, beside what the same points give in the same photo today. */
export interface PhotoAgain {
  readonly entry: string;
  readonly kind: 'reading' | 'coverage' | 'transfer';
  readonly method: { readonly then: string; readonly now: string };
  readonly then: Figures;
  /** Null where the archive does not carry the photo, or it cannot be read; `refused` where no figure comes of it today. */
  readonly now: Figures | { readonly refused: string } | null;
  /** Whether each figure is the same but for one in its last digit, as two programs decode a JPEG a shade apart. Null without a photo. */
  readonly same: boolean | null;
}

/** Computes every photo value of a log again, one photo in memory at a time. */
export async function recomputePhotos(entries: readonly Entry[], blob: (sha256: string) => Promise<Blob | null>): Promise<PhotoAgain[]> {
  const again: PhotoAgain[] = [];
  for (const entry of entries) {
    const view = known(entry);
    if (view.kind === 'reading' && view.data.photo !== undefined) {
      const { photo } = view.data;
      const said = view.data.said as Quantity;
      const then = { value: said.value, low: photo.low, high: photo.high, plane: photo.plane ?? 'not-shown' };
      again.push(await of(entry, 'reading', photo, then, said.resolution ?? '0.1', (picture) => lengthAgain(picture, photo, said.unit)));
    } else if (view.kind === 'coverage') {
      const { data } = view;
      const found = data.misses.filter(({ added }) => added !== true);
      const then = { covered: data.covered, low: data.low, high: data.high, unknown: data.unknown, misses: String(found.length) };
      again.push(await of(entry, 'coverage', data.photo, then, '0.1', (picture) => coverageAgain(picture, data)));
    } else if (view.kind === 'transfer') {
      const { data } = view;
      const then = { share: data.share, low: data.low, high: data.high };
      again.push(await of(entry, 'transfer', data.photo, then, '0.1', (picture) => transferAgain(picture, data)));
    }
  }
  return again;

  async function of(
    { body }: Entry,
    kind: PhotoAgain['kind'],
    { sha256, method }: { sha256: string; method: string },
    then: Figures,
    step: string,
    measure: (picture: Raster) => Figures | { refused: string },
  ): Promise<PhotoAgain> {
    const photo = await blob(sha256);
    const picture = photo === null ? null : await decode(photo);
    const now = picture?.ok === true ? measure(picture.value) : null;
    const same = now === null ? null : !('refused' in now) && isSame(then, now, Number(step));
    return { entry: body.id, kind, method: { then: method, now: METHOD_VERSION }, then, now, same };
  }
}

function isSame(then: Figures, now: Figures, step: number): boolean {
  return Object.entries(then).every(([name, value]) => value === now[name] || Math.abs(Number(value) - Number(now[name])) <= step * 1.001);
}

function lengthAgain(picture: Raster, { reference, from, to }: PhotoLength, unit: string): Figures | { refused: string } {
  const by: Reference =
    reference.kind === 'card'
      ? { kind: 'card', barMm: Number(reference.barMm), ...(reference.tapped === undefined ? {} : { corners: quad(reference.tapped) }) }
      : { kind: 'rectangle', widthMm: Number(reference.widthMm), heightMm: Number(reference.heightMm), corners: quad(reference.tapped) };
  const length = measureLengths(picture, by, [{ from: point(from), to: point(to) }]).segments[0]!;
  if ('refused' in length) return length;
  const { said, low, high } = lengthSaid(length, unit === 'in' ? 'in' : 'mm');
  return { value: said.value, low, high, plane: length.planeShown ? 'edges' : 'not-shown' };
}

function coverageAgain(picture: Raster, { photo, film, bare }: Coverage): Figures | { refused: string } {
  const found = measureCoverage(picture, { ...area(photo), film: film.map(point), bare: bare.map(point) });
  if (!found.ok) return { refused: found.fault };
  const { coveredShare, low, high, unknownShare, holidays } = found.value;
  return {
    covered: percent(coveredShare, Math.round),
    low: percent(low, Math.floor),
    high: percent(high, Math.ceil),
    unknown: percent(unknownShare, Math.ceil),
    misses: String(Math.min(MISSES_MAX, holidays.length)),
  };
}

function transferAgain(picture: Raster, { photo, mortar, sheet }: Transfer): Figures | { refused: string } {
  const found = measureTransfer(picture, { ...area(photo), mortar: point(mortar), sheet: point(sheet) });
  if (!found.ok) return { refused: found.fault };
  const { share, low, high } = found.value;
  return { share: percent(share, Math.round), low: percent(low, Math.floor), high: percent(high, Math.ceil) };
}

function area({ corners, widthMm, heightMm }: PhotoArea) {
  return { quad: quad(corners), widthMm: Number(widthMm), heightMm: Number(heightMm) };
}

function point([x, y]: readonly [string, string]): Point {
  return [Number(x), Number(y)];
}

function quad([a, b, c, d]: PhotoArea['corners']): Quad {
  return [point(a), point(b), point(c), point(d)];
}
