import { dayWhere, emptyMaterial, isPastUse, materialDrafts, materialForm, SHEET_FILES_MAX, sheetDrafts } from '#lib/job/material-form.ts';
import { askedPairs, pairDrafts } from '#lib/job/pairs.ts';
import { previewJob } from '#lib/job/preview.ts';
import { DataSheet, Material, Surface, type Picture } from '#lib/record/kinds/setup.ts';
import type { Draft } from '#lib/record/kinds.ts';
import type { MaterialForm } from '#lib/record/setup-drafts.ts';
import { expect, test } from 'vitest';

const FORM: MaterialForm = { ...emptyMaterial('m1'), name: 'Grey sheet', lot: 'L 7', useBy: '31 Mar 2027', opened: '2', left: '0,5' };
const made = (change: Partial<MaterialForm>) => materialDrafts({ ...FORM, ...change });

test('a lot is kept with its day and its packages, and comes back into its form', () => {
  const drafts = made({});
  const data = { material: 'm1', what: 'membrane-sheet', name: 'Grey sheet', lot: 'L 7', useBy: '2027-03-31', opened: '2', left: '0.5' };
  expect(drafts).toEqual({ ok: true, value: [{ kind: 'material', data }] });
  expect(materialDrafts(materialForm(Material.parse(data)))).toEqual(drafts);
});

test('only a name is needed', () => {
  expect(made({ lot: '', useBy: ' ', opened: '', left: '' })).toEqual({
    ok: true,
    value: [{ kind: 'material', data: { material: 'm1', what: 'membrane-sheet', name: 'Grey sheet', lot: '', useBy: null } }],
  });
});

test.each<[what: string, change: Partial<MaterialForm>, faults: [field: string, code: string][]]>([
  ['no name', { name: '' }, [['name', 'empty']]],
  ['a lot of 100,000', { lot: 'x'.repeat(100_000) }, [['lot', 'too-long']]],
  ['30 Feb', { useBy: '30 Feb 2026' }, [['useBy', 'not-a-day']]],
  ['a day that could be two', { useBy: '3/4/2026' }, [['useBy', 'day-in-doubt']]],
  ['packages in words', { opened: 'two' }, [['opened', 'not-a-count']]],
  ['packages below zero', { opened: '-1' }, [['opened', 'not-a-count']]],
  ['a million packages', { opened: '1000000' }, [['opened', 'too-large']]],
  ['more left than opened', { opened: '2', left: '3' }, [['left', 'left-over-opened']]],
])('%s is refused by field', (_, change, faults) => {
  expect(made(change)).toEqual({ ok: false, fault: faults.map(([field, code]) => ({ field, code })) });
});

test.each<[useBy: string, today: string, past: boolean]>([
  ['2026-03-01', '2026-03-02', true],
  ['2026-03-02', '2026-03-02', false],
  ['2027-01-01', '2026-12-31', false],
  ['2025-12-31', '2026-01-01', true],
])('a use-by of %s is past on %s: %s', (useBy, today, past) => {
  expect(isPastUse(useBy, today)).toBe(past);
});

test.each([
  ['2026-03-02T04:30:00.000Z', -360, '2026-03-01'],
  ['2026-03-02T04:30:00.000Z', 60, '2026-03-02'],
  ['2026-03-01T23:30:00.000Z', 630, '2026-03-02'],
])('%s is, at %d min from UTC, a moment of %s', (utc, offset, day) => {
  expect(dayWhere(utc, offset)).toBe(day);
});

const page = (i: number): Picture => ({ sha256: i.toString(16).padStart(64, '0'), bytes: 9, type: 'image/jpeg' });
const sheet = { sheet: 's', title: 'Grey sheet', edition: 'edition 7', materials: ['m1'] };
const pages = (n: number) => Array.from({ length: n }, (_, i) => page(i));

test('a data sheet needs its title and its pages, and keeps up to fifty', () => {
  const full = sheetDrafts(sheet, pages(SHEET_FILES_MAX));
  expect(full.ok && DataSheet.parse(full.value[0]!.data).files).toHaveLength(SHEET_FILES_MAX);
  expect(sheetDrafts({ ...sheet, title: '' }, [])).toEqual({ ok: false, fault: [{ field: 'title', code: 'empty' }, { field: 'files', code: 'no-file' }] });
  expect(sheetDrafts(sheet, pages(51))).toEqual({ ok: false, fault: [{ field: 'files', code: 'too-large' }] });
}); // prettier-ignore

const material = (id: string, what: Material['what']): Draft => ({
  kind: 'material',
  data: { material: id, what, name: `The ${id}`, lot: '', useBy: null },
});
const wall = (id: string, substrate: Surface['substrate']): Draft => ({
  kind: 'surface',
  data: Surface.parse({ surface: id, name: id, place: 'wall', system: 'sheet', substrate }),
});
const PARTS = [
  material('sheet', 'membrane-sheet'),
  material('mortar', 'mortar'),
  material('band', 'band'),
  material('fabric', 'fabric'),
  wall('a', 'cement-board'),
  wall('b', 'cement-board'),
];
const asked = (drafts: readonly Draft[]) =>
  askedPairs(previewJob(drafts)).map(({ material: one, partner, said }) => [
    one.material,
    partner.is === 'material' ? partner.material.material : partner.code,
    said?.data.named ?? null,
  ]);

test('asked is about what bonds to what, each once', () => {
  expect(asked(PARTS)).toEqual([
    ['sheet', 'mortar', null],
    ['band', 'sheet', null],
    ['sheet', 'cement-board', null],
    ['mortar', 'cement-board', null],
  ]);
  expect(asked([material('liquid', 'liquid'), material('band', 'band'), material('collar', 'collar'), material('drain', 'drain')])).toEqual(
    [
      ['collar', 'drain', null],
      ['liquid', 'band', null],
    ],
  );
  expect(asked([material('sheet', 'membrane-sheet')])).toEqual([]);
});

test('the last word on a pair stands, whichever of the two it named first', () => {
  const said = (one: string, other: string, named: 'in-sheet' | 'not-named'): Draft => ({
    kind: 'pair',
    data: { material: one, with: other, named, where: '' },
  });
  expect(asked([...PARTS, said('mortar', 'sheet', 'not-named'), said('sheet', 'mortar', 'in-sheet')])[0]).toEqual([
    'sheet',
    'mortar',
    'in-sheet',
  ]);
});

test('one touch keeps where it is named; not named is kept together with the deviation against it', () => {
  const [pair, , , onBoard] = askedPairs(previewJob(PARTS));
  expect(pairDrafts(pair!, 'in-letter', 'letter of 2 March', () => 'p1')).toEqual([
    { id: 'p1', kind: 'pair', data: { material: 'sheet', with: 'mortar', named: 'in-letter', where: 'letter of 2 March' } },
  ]);
  expect(pairDrafts(onBoard!, 'not-named', '', () => 'p2')).toEqual([
    { id: 'p2', kind: 'pair', data: { material: 'mortar', with: 'cement-board', named: 'not-named', where: '' } },
    { kind: 'deviation', refs: ['p2'], data: { surfaces: [], what: 'The mortar / cement-board', why: '', against: 'p2', accepted: '' } },
  ]);
});

test('two names of two hundred characters fit the deviation between them', () => {
  const long = 'x'.repeat(200);
  const drafts = PARTS.map((draft) => (draft.kind === 'material' ? { ...draft, data: { ...draft.data, name: long } } : draft));
  const [pair] = askedPairs(previewJob(drafts));
  const job = previewJob([...drafts, ...pairDrafts(pair!, 'not-named', '', () => 'p')]);
  expect(job.facts.deviation.map(({ data }) => data.against)).toEqual(['p']);
  expect(askedPairs(job)[0]!.said?.data.named).toBe('not-named');
});
