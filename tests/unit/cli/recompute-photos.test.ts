import { lengthDraft } from '#lib/job/in-photo.ts';
import { sha256Hex } from '#lib/record/hash.ts';
import { measureLengths } from '#lib/vision/length.ts';
import { METHOD_VERSION } from '#lib/vision/method.ts';
import { expect, test } from 'vitest';
import { recomputePhotos } from '../../../src/cli/recompute-photos.ts';
import { decode } from '../../camera/develop.ts';
import { lapPicture } from '../../camera/pictures.ts';
import { chain } from '../../fixtures/log.ts';

test('a length is measured again from its photo and points; one that was written otherwise, and one whose photo is gone, are named', async () => {
  const { jpeg, truth } = await lapPicture();
  const raster = await decode(jpeg);
  const { from, to } = truth.segments[0]!;
  const { segments, plane, mmPerPx } = measureLengths(raster, { kind: 'card', barMm: 99.5 }, [{ from, to }]);
  const length = segments[0]!;
  if ('refused' in length) throw new Error(length.refused);
  const of = { shot: 's', run: null, surface: 'f', sha256: sha256Hex(jpeg), width: raster.width, height: raster.height };
  const { data } = lengthDraft(
    { ...of, method: METHOD_VERSION, confirmed: 'ana' },
    {
      what: 'overlap',
      lap: 'both-edges',
      from,
      to,
      reference: { kind: 'card', barMm: '99.5', tapped: null },
      found: plane!.corners,
      mmPerPx: mmPerPx!,
      length,
    },
    'mm',
  );
  const entries = chain('a', [
    { kind: 'reading', data },
    { kind: 'reading', data: { ...data, said: { ...data.said, value: '75.0' } } },
    { kind: 'reading', data: { ...data, photo: { ...data.photo!, sha256: 'b'.repeat(64) } } },
    { kind: 'reading', data: { ...data, photo: { ...data.photo!, plane: undefined } } },
    { kind: 'note', data: { words: 'x', surfaces: [] } },
  ]);
  const blob = async (sha256: string) => (sha256 === of.sha256 ? new Blob([new Uint8Array(jpeg)]) : null);
  const again = await recomputePhotos(entries, blob);
  expect(again.map(({ entry, same }) => [entry, same])).toEqual([['a-0', true], ['a-1', false], ['a-2', null], ['a-3', false]]); // prettier-ignore
  expect(again[0]).toMatchObject({ kind: 'reading', now: again[0]!.then, method: { then: METHOD_VERSION, now: METHOD_VERSION } });
});
