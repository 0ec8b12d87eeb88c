import { readFile } from 'node:fs/promises';
import { fail, ok, type Result } from '#lib/result.ts';
import { measureCoverage } from '#lib/vision/coverage.ts';
import { measureLengths } from '#lib/vision/length.ts';
import { type PointsFault, readCoveragePoints, readLengthPoints } from '#lib/vision/points.ts';
import type { Raster } from '#lib/vision/raster.ts';
import * as m from '#lib/words/compiled/messages.js';
import { pointsFaultText, refusalText } from '#lib/words/measure-fault.ts';
import { decode, MEGAPIXELS_MAX } from './decode.ts';
import { openInput } from './files.ts';
import { badInput, type Call, type Outcome } from './outcome.ts';

/** Lengths in a photo (docs/vision.md). Exit 0 also where a length is refused; 2 for a file that is no photo or points that are none. */
export async function lengthCommand(call: Call): Promise<Outcome> {
  const read = await readInputs(call, readLengthPoints);
  if (!read.ok) return read.fault;
  const { picture, points } = read.value;
  const { mmPerPx, segments } = measureLengths(picture, points.reference, points.segments);
  const said = segments.map((each) => ('refused' in each ? { ...each, message: refusalText(each.refused, call.locale) } : each));
  return { exit: 0, answer: { mmPerPx, segments: said } };
}

/** Coverage of a coat in a photo (docs/vision.md). */
export async function coverageCommand(call: Call): Promise<Outcome> {
  const read = await readInputs(call, readCoveragePoints);
  if (!read.ok) return read.fault;
  const measured = measureCoverage(read.value.picture, read.value.points);
  if (!measured.ok) return { exit: 0, answer: { refused: measured.fault, message: refusalText(measured.fault, call.locale) } };
  const { coveredShare, low, high, unknownShare, mmPerPx, smallestFoundMm, holidays } = measured.value;
  return { exit: 0, answer: { coveredShare, low, high, unknownShare, mmPerPx, smallestFoundMm, holidays } };
}

async function readInputs<T>(
  call: Call,
  read: (json: unknown) => Result<T, PointsFault>,
): Promise<Result<{ picture: Raster; points: T }, Outcome>> {
  const { locale } = call;
  const photo = await openInput(call);
  if (!photo.ok) return photo;
  let json: unknown;
  try {
    // Some editors begin a file with a mark of its coding.
    json = JSON.parse((await readFile(call.points, 'utf8')).replace(/^\uFEFF/, ''));
  } catch (error) {
    const wrong =
      error instanceof SyntaxError
        ? badInput('--points', 'not-json', m.points_not_json({ file: call.points }, { locale }))
        : badInput('--points', 'no-such-file', m.fault_no_such_file({ file: call.points }, { locale }));
    return fail(wrong);
  }
  const points = read(json);
  if (!points.ok) return fail(badInput(points.fault.field, points.fault.code, pointsFaultText(points.fault.code, locale)));
  const picture = await decode(photo.value);
  if (picture.ok) return ok({ picture: picture.value, points: points.value });
  const { file } = call;
  const text =
    picture.fault === 'not-an-image'
      ? m.points_not_an_image({ file }, { locale })
      : m.points_too_many_pixels({ file, max: MEGAPIXELS_MAX }, { locale });
  return fail(badInput('FILE', picture.fault, text));
}
