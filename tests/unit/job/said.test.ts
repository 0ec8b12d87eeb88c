import { expect, it, test } from 'vitest';
import { amendedFields, FIELDS, saidFields } from '#lib/job/said.ts';
import { knownData, KINDS, SCHEMAS, type Kind } from '#lib/record/kinds.ts';

test.each([...KINDS])('%s: every field of its schema is said, or left unsaid with a reason', (kind) => {
  expect(Object.keys(FIELDS[kind]).toSorted()).toEqual(Object.keys(SCHEMAS[kind].shape).toSorted());
  for (const way of Object.values<string | { unsaid: string } | { each: object }>(FIELDS[kind]))
    if (typeof way !== 'string' && 'unsaid' in way) expect(way.unsaid).toMatch(/\w+ \w+/);
});

const H = 'a'.repeat(64);
const fieldsOf = (kind: Kind, data: object) => saidFields(knownData(kind, data));

// prettier-ignore
test.each<[what: string, kind: Kind, data: object, said: object[]]>([
  ['words, none where nothing was written', 'attestation', { words: '', surfaces: [] }, []],
  ['surfaces by their ids', 'note', { words: 'Wet', surfaces: ['s-1', 's-2'] }, [
    { field: 'words', is: 'words', text: 'Wet' },
    { field: 'surfaces', is: 'ids', of: 'surface', ids: ['s-1', 's-2'] },
  ]],
  ['both bounds of a limit in its unit', 'limit', { limit: 'l', what: 'recoat', min: '4', max: '24', unit: 'h', source: { kind: 'data-sheet', text: 'p. 6' } }, [
    { field: 'what', is: 'code', of: 'measure', codes: ['recoat'] },
    { field: 'min', is: 'quantity', text: null, value: '4', to: null, unit: 'h', resolution: null },
    { field: 'max', is: 'quantity', text: null, value: '24', to: null, unit: 'h', resolution: null },
    { field: 'source', is: 'source', kind: 'data-sheet', text: 'p. 6' },
  ]],
  ['a comb reading as an interval', 'reading', { what: 'wet-film', surface: null, said: { text: 'wet at 24', value: '24', to: '26', unit: 'mil' }, how: 'comb' }, [
    { field: 'what', is: 'code', of: 'measure', codes: ['wet-film'] },
    { field: 'said', is: 'quantity', text: 'wet at 24', value: '24', to: '26', unit: 'mil', resolution: null },
    { field: 'how', is: 'code', of: 'how', codes: ['comb'] },
  ]],
  ['a no as well as a yes', 'tile-check', { surfaces: [], whole: true, dry: false, undamaged: true, words: '' }, [
    { field: 'whole', is: 'yes', yes: true },
    { field: 'dry', is: 'yes', yes: false },
    { field: 'undamaged', is: 'yes', yes: true },
  ]],
  ['instants, and no deadline that was not stated', 'wait', { what: 'slake', surfaces: [], fromUtc: '2025-10-14T15:00:00.000Z', readyUtc: null, latestUtc: null, limit: 'l' }, [
    { field: 'what', is: 'code', of: 'wait', codes: ['slake'] },
    { field: 'fromUtc', is: 'instant', utc: '2025-10-14T15:00:00.000Z' },
    { field: 'limit', is: 'ids', of: 'limit', ids: ['l'] },
  ]],
  ['a key, or why there is none', 'device', { key: { alg: 'none', why: 'no-key-store' } }, [{ field: 'key', is: 'key', public: null, why: 'no-key-store' }]],
  ['a sound by its hash and length', 'voice', { sound: { sha256: H, bytes: 44, type: 'audio/wav' }, ms: 900, cut: false, surfaces: [] }, [
    { field: 'ms', is: 'duration', ms: 900 },
    { field: 'cut', is: 'yes', yes: false },
    { field: 'sound', is: 'files', files: [{ sha256: H, bytes: 44, type: 'audio/wav' }] },
  ]],
  ['a mark on the floor: across and into the room', 'mark', { of: 'n', room: 'bath', x: { text: '12', value: '12', unit: 'in' }, y: { text: '20', value: '20', unit: 'in' } }, [
    { field: 'of', is: 'ids', of: 'entry', ids: ['n'] },
    { field: 'room', is: 'ids', of: 'room', ids: ['bath'] },
    { field: 'x', is: 'quantity', text: '12', value: '12', to: null, unit: 'in', resolution: null },
    { field: 'into', is: 'quantity', text: '20', value: '20', to: null, unit: 'in', resolution: null },
  ]],
  ['a mark on the first wall: up it', 'mark', { of: 'n', room: 'bath', wall: 0, x: { text: '12', value: '12', unit: 'in' }, y: { text: '20', value: '20', unit: 'in' } }, [
    { field: 'of', is: 'ids', of: 'entry', ids: ['n'] },
    { field: 'room', is: 'ids', of: 'room', ids: ['bath'] },
    { field: 'wall', is: 'number', n: 1 },
    { field: 'x', is: 'quantity', text: '12', value: '12', to: null, unit: 'in', resolution: null },
    { field: 'y', is: 'quantity', text: '20', value: '20', to: null, unit: 'in', resolution: null },
  ]],
  ['each wall of a drawing, and of a thing its wall counted from 1', 'drawing', {
    room: 'bath', unit: 'in', height: { text: '96', value: '96', unit: 'in' }, closing: 'exact', doorways: [],
    walls: Array.from({ length: 3 }, (_, i) => ({ length: { text: '60', value: '60', unit: 'in' }, ...(i < 2 && { turn: '-90' }), as: 'curb' })),
    things: [{ thing: 'pipe', wall: 2, along: { text: '9', value: '9', unit: 'in' } }],
  }, [
    { field: 'room', is: 'ids', of: 'room', ids: ['bath'] },
    { field: 'height', is: 'quantity', text: '96', value: '96', to: null, unit: 'in', resolution: null },
    { field: 'walls', is: 'list', of: 'drawing', items: [0, 1, 2].map((i) => [
      { field: 'length', is: 'quantity', text: '60', value: '60', to: null, unit: 'in', resolution: null },
      ...(i < 2 ? [{ field: 'turn', is: 'tag', text: '-90°' }] : []),
      { field: 'as', is: 'code', of: 'choice', codes: ['curb'] },
    ]) },
    { field: 'closing', is: 'code', of: 'choice', codes: ['exact'] },
    { field: 'things', is: 'list', of: 'drawing', items: [[
      { field: 'thing', is: 'code', of: 'choice', codes: ['pipe'] },
      { field: 'wall', is: 'number', n: 3 },
      { field: 'along', is: 'quantity', text: '9', value: '9', to: null, unit: 'in', resolution: null },
    ]] },
  ]],
  ['the cuts of a plan', 'plan', { room: 'bath', drawing: 'd', input: {}, result: { unit: 'mm', pieces: [{ id: 'A', cutLength: '1520' }] } }, [
    { field: 'room', is: 'ids', of: 'room', ids: ['bath'] },
    { field: 'drawing', is: 'ids', of: 'entry', ids: ['d'] },
    { field: 'result', is: 'list', of: 'plan', items: [[
      { field: 'piece', is: 'tag', text: 'A' },
      { field: 'cutLength', is: 'quantity', text: null, value: '1520', to: null, unit: 'mm', resolution: null },
    ]] },
  ]],
])('says %s', (_, kind, data, said) => {
  expect(fieldsOf(kind, data)).toEqual(said);
});

it('says the fields in one order, whatever order they were written in', () => {
  const data = { words: 'x', why: 'y', what: 'short', surfaces: [], against: null, accepted: 'W' };
  const turned = Object.fromEntries(Object.entries(data).reverse());
  expect(fieldsOf('deviation', turned)).toEqual(fieldsOf('deviation', data));
  expect(fieldsOf('deviation', data).map(({ field }) => field)).toEqual(['what', 'why', 'accepted']);
});

it('says an amendment as the entry it puts in place, and shows one that nobody can read as it was written', () => {
  expect(amendedFields('note', { words: 'Dry', surfaces: [] })).toEqual([{ field: 'words', is: 'words', text: 'Dry' }]);
  expect(amendedFields('note', { words: 7 })).toEqual([{ field: 'data', is: 'tag', text: '{"words":7}' }]);
  expect(amendedFields('moisture-map', { a: 'b' })).toEqual([{ field: 'data', is: 'tag', text: '{"a":"b"}' }]);
});

it('has no field to say for what a newer version wrote', () => {
  expect(saidFields({ kind: 'unknown' })).toEqual([]);
});
