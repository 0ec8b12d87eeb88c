import fc from 'fast-check';
import { expect, test } from 'vitest';
import { clearOn, clearToCover } from '#lib/job/cover.ts';
import { proofOwed } from '#lib/job/proof.ts';
import { EMPTY_PROJECTION, extend, project } from '#lib/job/project.ts';
import type { Entry } from '#lib/record/entry.ts';
import { sha256HexOfText } from '#lib/record/hash.ts';
import { ONE_OF_EACH } from '../fixtures/one-of-each.ts';

const runs = { seed: 20260302, numRuns: 400 };

const SHA = 'a'.repeat(64);
const SURFACES = ['wall', 'floor'] as const;
/** Few ids, so that entries share and name them, before and after they are made, and some name none that exists. */
const id = fc.constantFrom('i0', 'i1', 'i2', 'i3', 'i4', 'i5', 'nowhere');
const surface = fc.constantFrom(...SURFACES, null);

/** What an entry says: every kind of this version, a kind of a later one, and a known kind that a later one changed. */
const said = fc.oneof(
  {
    weight: 3,
    arbitrary: kindOf(
      'run-start',
      fc.record({ step: fc.constantFrom('bond-sheets', 'liquid-coat'), surfaces: fc.subarray([...SURFACES]), coat: fc.constantFrom(1, 2) }),
    ),
  },
  { weight: 3, arbitrary: kindOf('run-stop', fc.constantFrom({ end: 'touched' }, { end: 'about' })) },
  {
    weight: 3,
    arbitrary: kindOf(
      'shot',
      fc.record({
        picture: fc.constant({ sha256: SHA, bytes: 5, type: 'image/jpeg' }),
        from: fc.constantFrom('file', 'watch'),
        surface,
        shows: fc.subarray(['collar', 'flange']),
      }),
    ),
  },
  {
    weight: 3,
    arbitrary: kindOf(
      'reading',
      fc.nat(90).chain((mm) =>
        fc.record({
          what: fc.constant('overlap'),
          surface,
          said: fc.constant({ text: `${mm}`, value: `${mm}`, unit: 'mm' }),
          how: fc.constant('tape'),
        }),
      ),
    ),
  },
  {
    weight: 3,
    arbitrary: kindOf(
      'tag',
      fc.record({
        shots: fc.array(id, { minLength: 1, maxLength: 3 }),
        run: fc.option(id),
        step: fc.constantFrom(null, 'scrape'),
        surfaces: fc.subarray([...SURFACES]),
      }),
    ),
  },
  { weight: 3, arbitrary: kindOf('withdrawal', fc.record({ of: id, why: fc.constant('') })) },
  {
    weight: 3,
    arbitrary: kindOf('amendment', fc.record({ of: id, why: fc.constant(''), data: fc.constantFrom(...Object.values(ONE_OF_EACH)) })),
  },
  kindOf(
    'surface',
    fc.record({
      surface: fc.constantFrom(...SURFACES),
      name: fc.constantFrom('North', 'South'),
      place: fc.constant('wall'),
      system: fc.constant('sheet'),
    }),
  ),
  kindOf(
    'limit',
    fc.nat(90).map((min) => ({ limit: 'l0', what: 'overlap', min: `${min}`, max: null, unit: 'mm', source: { kind: 'crew', text: 'us' } })),
  ),
  kindOf(
    'job',
    fc.record({
      name: fc.constantFrom('Hall bath', 'Upstairs'),
      address: fc.constant(''),
      units: fc.constantFrom('in', 'mm'),
      lang: fc.constant('en'),
    }),
  ),
  kindOf('person', fc.record({ person: fc.constantFrom('ana', 'luis'), name: fc.constantFrom('Ana', 'Luis') })),
  kindOf('flood-end', fc.record({ attempt: id, result: fc.constantFrom('passed', 'failed'), words: fc.constant('') })),
  { weight: 6, arbitrary: fc.constantFrom(...Object.entries(ONE_OF_EACH)).map(([kind, data]) => ({ kind, data })) },
  kindOf('moisture-map', fc.constant({ percent: '4.5' })),
  kindOf('shot', fc.constant({ picture: 'in another form' })),
);

function kindOf(kind: string, data: fc.Arbitrary<object>): fc.Arbitrary<{ kind: string; data: object }> {
  return data.map((one) => ({ kind, data: one }));
}

const line = fc.record({
  said,
  id,
  run: fc.option(id, { nil: undefined }),
  refs: fc.array(id, { maxLength: 2 }),
  by: fc.constantFrom('ana', 'luis'),
  // The clock may stand, jump ahead and go back.
  minute: fc.integer({ min: 0, max: 30 }),
  // Now and then a place in the chain is taken twice, as on a phone restored onto another.
  forks: fc.nat(19).map((n) => n === 0),
});

/** The chains of one to three phones on one job. */
const log = fc
  .array(fc.array(line, { maxLength: 9 }), { minLength: 1, maxLength: 3 })
  .map((chains) =>
    chains.flatMap((chain, phone) => {
      let seq = -1;
      return chain.map((one, i) => {
        if (!one.forks || seq < 0) seq += 1;
        return entryOf(one, `phone-${phone}`, seq, i);
      });
    }),
  )
  .filter((entries) => entries.length > 0);

function entryOf(one: typeof line extends fc.Arbitrary<infer T> ? T : never, device: string, seq: number, i: number): Entry {
  const body = {
    v: 1,
    kind: one.said.kind,
    id: one.id,
    job: 'job-1',
    device,
    seq,
    prev: null,
    by: one.by,
    ...(one.run === undefined ? {} : { run: one.run }),
    refs: one.refs,
    times: {
      utc: new Date(Date.UTC(2026, 2, 2, 14, one.minute)).toISOString(),
      offsetMin: -360,
      zone: 'America/Chicago',
      monoMs: 0,
      session: 's',
    },
    data: one.said.data as Record<string, unknown>,
  };
  const raw = JSON.stringify([body, i]);
  return { raw, body, hash: sha256HexOfText(raw), sig: { alg: 'none' } };
}

/** A log, and its entries once more in another order with some of them twice. */
const shuffled = log.chain((entries) =>
  fc.record({
    entries: fc.constant(entries),
    arrived: fc.shuffledSubarray([...entries, ...entries.slice(0, 3)], { minLength: entries.length + Math.min(3, entries.length) }),
  }),
);

/** Entries in the order they arrived, cut into batches. */
const batches = shuffled.chain(({ entries, arrived }) =>
  fc.array(fc.nat(arrived.length), { maxLength: 5 }).map((cuts) => {
    const edges = [0, ...cuts.toSorted((a, b) => a - b), arrived.length];
    return { entries, parts: edges.slice(1).map((to, i) => arrived.slice(edges[i], to)) };
  }),
);

test('what a log means does not depend on the order its entries arrived in, nor on one arriving twice', () => {
  fc.assert(
    fc.property(shuffled, ({ entries, arrived }) => {
      expect(project(arrived)).toEqual(project(entries));
    }),
    runs,
  );
});

test('read bit by bit, in any bits, a log means what it means read whole', () => {
  fc.assert(
    fc.property(batches, ({ entries, parts }) => {
      const bitByBit = parts.reduce((before, part) => extend(before, part), EMPTY_PROJECTION);
      expect(bitByBit).toEqual(project(entries));
    }),
    runs,
  );
});

test('no kind in any shape, corrected in any way, stops the proof owed or the cover from being read', () => {
  fc.assert(
    fc.property(log, (entries) => {
      const { state } = project(entries);
      const layers = proofOwed(state);
      const { clear, missing } = clearToCover(layers, state);
      expect(clear && missing.length > 0).toBe(false);
      for (const one of state.surfaces)
        expect(clearOn(one, layers, state).missing.length).toBeLessThanOrEqual(layers.flatMap(({ items }) => items).length);
    }),
    runs,
  );
});

test('every entry is read exactly once, and a chain in its own order', () => {
  fc.assert(
    fc.property(log, (entries) => {
      const read = project(entries).state.lines.map((one) => one.entry);
      expect(read.map((entry) => entry.raw).toSorted()).toEqual(entries.map((entry) => entry.raw).toSorted());
      for (const chain of Map.groupBy(read, (entry) => entry.body.device).values()) {
        const seqs = chain.map((entry) => entry.body.seq);
        expect(seqs).toEqual(seqs.toSorted((a, b) => a - b));
      }
    }),
    runs,
  );
});
