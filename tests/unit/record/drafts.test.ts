import { Drafts, ReadingOnPad, Shooting } from '#lib/record/drafts.ts';
import { MemoryShelf } from '#lib/record/memory-shelf.ts';
import { NewJob } from '#lib/record/setup-drafts.ts';
import { expect, test } from 'vitest';

const KEY = ['reading', 'hall-bath', 'overlap'];
const PAD: ReadingOnPad = { surface: 'north', sixteenths: 43, typed: '', lastWet: null };

test('a draft comes back as it was, from another page on the same shelf', async () => {
  const shelf = new MemoryShelf();
  await new Drafts(shelf).put(KEY, PAD);
  expect(await new Drafts(shelf).get(KEY, ReadingOnPad)).toEqual(PAD);
});

test('the last one written stands, and a dropped one is gone', async () => {
  const drafts = new Drafts(new MemoryShelf());
  await drafts.put(KEY, PAD);
  await drafts.put(KEY, { ...PAD, sixteenths: 44 });
  expect(await drafts.get(KEY, ReadingOnPad)).toMatchObject({ sixteenths: 44 });
  await drafts.drop(KEY);
  expect(await drafts.get(KEY, ReadingOnPad)).toBeNull();
});

test('drafts of two jobs do not meet', async () => {
  const drafts = new Drafts(new MemoryShelf());
  await drafts.put(KEY, PAD);
  expect(await drafts.get(['reading', 'main-bath', 'overlap'], ReadingOnPad)).toBeNull();
});

const FORM: NewJob = {
  name: '',
  address: '',
  person: '',
  permit: '',
  units: 'in',
  room: '',
  system: 'sheet',
  surfaces: [],
  limits: [],
  proof: 'core',
};
test.each([
  ['a pad of an older version', ReadingOnPad, { surface: null, typed: '' }],
  ['a pad with part of a graduation', ReadingOnPad, { ...PAD, sixteenths: 2.5 }],
  ['a pad below zero', ReadingOnPad, { ...PAD, lastWet: -1 }],
  ['a form in other units', NewJob, { ...FORM, units: 'cm' }],
  ['a form with a surface of another kind', NewJob, { ...FORM, surfaces: [{ surface: 'n', name: '', place: 'ceiling', system: null }] }],
  ['shooting without a count', Shooting, { job: 'hall-bath', jobName: '', run: null, surface: null }],
  ['text where fields were', Shooting, 'hall-bath'],
] as const)('%s is started anew', async (_, shape, value) => {
  const drafts = new Drafts(new MemoryShelf());
  await drafts.put(KEY, value);
  expect(await drafts.get<unknown>(KEY, shape)).toBeNull();
});

test('a form is kept as typed, right or wrong', async () => {
  const typed: NewJob = {
    ...FORM,
    name: ' حمام 🛁 ',
    limits: [{ what: 'overlap', min: '2 1/', max: '-', sourceKind: 'crew', sourceText: '' }],
  };
  const drafts = new Drafts(new MemoryShelf());
  await drafts.put(['new'], typed);
  expect(await drafts.get(['new'], NewJob)).toEqual(typed);
});
