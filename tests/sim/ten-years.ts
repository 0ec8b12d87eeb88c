import { canonicalText } from '#lib/record/canonical.ts';
import { bodyHash, type Entry } from '#lib/record/entry.ts';
import { drawn, q, thing } from '../fixtures/drawn.ts';
import type { Said } from '../fixtures/log.ts';
import { random } from './random.ts';

/**
 * Ten years of a crew, invented from end to end: streets, people, lots, notes. The same number gives the same book, and the n-th job is the
 * same in a book of any size.
 */
const FIRST = Date.UTC(2016, 0, 4, 14);
const TEN_YEARS_MS = 3_650 * 86_400_000;
const START = ['Fern', 'Oak', 'Mill', 'Stone', 'Alder', 'Birch', 'Cedar', 'Clover', 'Copper', 'Dove', 'Elder', 'Flint', 'Glen', 'Harrow', 'Heron', 'Iron', 'Juniper', 'Kestrel', 'Larch', 'Maple', 'Nettle', 'Otter', 'Pebble', 'Quarry', 'Raven', 'Saddle', 'Thistle', 'Umber', 'Vine', 'Willow']; // prettier-ignore
const END = ['hollow', 'bridge', 'field', 'ford', 'gate', 'grove', 'haven', 'hurst', 'lake', 'land', 'leigh', 'marsh', 'mead', 'moor', 'pool', 'ridge', 'side', 'stead', 'vale', 'water', 'well', 'wick', 'wood', 'worth']; // prettier-ignore
const KIND = ['Street', 'Lane', 'Road', 'Row', 'Court', 'Avenue'];
const TOWN = ['Upper Marl', 'Low Barrow', 'Saltney Cross', 'Tarn End', 'New Hythe'];
const PEOPLE = ['Dara Winslow', 'Teo Marsh', 'Ines Robles', 'Ben Ortiz', 'Luis Aranda', 'Mona Fitch', 'Karl Esser', 'Ruth Obi'];
const WORDS = ['curb', 'band', 'narrow', 'patched', 'builder', 'told', 'plumber', 'moved', 'valve', 'stud', 'bowed', 'shimmed', 'niche', 'drain', 'late', 'rain', 'cold', 'heater', 'dust', 'primer', 'skipped', 'north', 'corner', 'tile', 'setter', 'came', 'early', 'scraped', 'old', 'glue', 'bed', 'soft', 'screw', 'missing', 'lap', 'short', 'recut', 'sheet', 'wrinkle', 'pulled', 'bench', 'window', 'sill', 'stain', 'ceiling', 'door', 'side', 'sealant']; // prettier-ignore

export interface BookJob {
  readonly job: string;
  readonly address: string;
  readonly lot: string;
  readonly entries: readonly Entry[];
}

/** The n-th job of a book of `of` jobs: about 60 entries, 26 of them photos. */
export function bookJob(n: number, of: number): BookJob {
  const draw = random(0x9e37 + n);
  const pick = <T>(list: readonly T[]): T => list[Math.floor(draw() * list.length)]!;
  const address = `${1 + Math.floor(draw() * 240)} ${pick(START)}${pick(END)} ${pick(KIND)}, ${pick(TOWN)}`;
  const lot = `${1_000 + Math.floor(draw() * 8_000)}`;
  const job = `job-${String(n).padStart(6, '0')}`;
  const begun = FIRST + Math.floor((n / of) * TEN_YEARS_MS);
  const said: Said[] = [
    { kind: 'device', data: { key: { alg: 'none', why: 'made up' } } },
    { kind: 'job', data: { name: `${pick(['Hall', 'Guest', 'Main', 'Attic', 'Pool'])} bath`, address, units: 'in', lang: 'en' } },
    { kind: 'person', data: { person: 'one', name: pick(PEOPLE) } },
    { kind: 'room', data: { room: 'bath', name: 'Bath', drain: 'bonded-flange', steam: false } },
    ...(['north', 'east', 'west'] as const).map((id): Said => surface(id, 'wall')),
    surface('floor', 'floor'),
    surface('curb', 'curb'),
    ...(['overlap', 'band-lap'] as const).map((what): Said => ({
      kind: 'limit',
      data: { limit: `limit-${what}`, what, min: '2', max: null, unit: 'in', source: { kind: 'data-sheet', text: 'p. 2' } },
    })),
    { kind: 'material', data: { material: 'sheet', what: 'membrane-sheet', name: 'Sheet membrane', lot, useBy: null } },
    { kind: 'material', data: { material: 'mortar', what: 'mortar', name: 'Mortar', lot: `K${Math.floor(draw() * 900)}`, useBy: null } },
    { id: 'drawing', kind: 'drawing', data: drawn('32; 60; 32; 60 curb 4 5', { things: [thing('valve', 2, [15, null, 42])] }) },
  ];
  const steps = ['scrape', 'pre-cut', 'bond-sheets', 'band-seams', 'flood-test'] as const;
  for (const [i, step] of steps.entries()) {
    const run = `run-${i}`;
    said.push({
      id: run,
      kind: 'run-start',
      data: { step, surfaces: ['north', 'east', 'west', 'floor', 'curb'], materials: ['sheet', 'mortar'] },
    });
    for (let shot = 0; shot < (step === 'flood-test' ? 2 : 6); shot++) {
      const of = `shot-${i}-${shot}`;
      const on = ['north', 'east', 'west', 'floor', 'curb'][shot % 5]!;
      const sha256 = `${job.slice(4)}${i}${shot}`.padEnd(64, 'a');
      said.push({
        id: of,
        run,
        kind: 'shot',
        data: { picture: { sha256, bytes: 900_000, type: 'image/jpeg' }, from: 'viewfinder', surface: on },
      });
      if (shot === 1) {
        said.push({
          kind: 'mark',
          refs: [of],
          data: { of, room: 'bath', wall: 2, x: q(Math.floor(draw() * 32)), y: q(Math.floor(draw() * 80)) },
        });
      }
    }
    const what = step === 'pre-cut' ? 'overlap' : step === 'band-seams' ? 'band-lap' : null;
    for (const on of what === null ? [] : ['north', 'east', 'floor']) {
      const value = String(1.75 + Math.floor(draw() * 20) / 16);
      said.push({
        run,
        kind: 'reading',
        data: { what, surface: on, said: { text: value, value, unit: 'in', resolution: '0.0625' }, how: 'tape' },
      });
    }
    said.push({ run, kind: 'run-stop', data: { end: 'touched' } });
  }
  said.push({ kind: 'note', data: { words: Array.from({ length: 8 }, () => pick(WORDS)).join(' '), surfaces: [] } });
  return { job, address, lot, entries: sealed(job, said, begun) };
}

function surface(id: string, place: string): Said {
  return { kind: 'surface', data: { surface: id, name: `${id} ${place}`, place, system: 'sheet', room: 'bath' } };
}

/** A chain as a phone without a key keeps it: hashed, each after the one before, two minutes apart. */
function sealed(job: string, said: readonly Said[], begun: number): Entry[] {
  let prev: string | null = null;
  return said.map(({ kind = '', data = {}, id, run, refs = [] }, seq) => {
    const times = {
      utc: new Date(begun + seq * 120_000).toISOString(),
      offsetMin: -360,
      zone: 'America/Chicago',
      monoMs: seq * 120_000,
      session: 's',
    };
    const body = {
      ...{ v: 1, kind, id: id ?? `e-${seq}`, job, device: 'phone', seq, prev, by: 'one' },
      ...(run === undefined ? {} : { run }),
      ...{ refs: [...refs], times, data: data as Record<string, unknown> },
    };
    const hash = bodyHash(body);
    prev = hash;
    return { raw: canonicalText({ body, hash, sig: { alg: 'none' } }), body, hash, sig: { alg: 'none' } };
  });
}

/** A word with one slip of a finger: two letters exchanged, one left out, or one doubled. */
export function misspelt(word: string, draw: () => number): string {
  const at = 1 + Math.floor(draw() * (word.length - 2));
  const how = Math.floor(draw() * 3);
  if (how === 0) return word.slice(0, at) + word[at + 1]! + word[at]! + word.slice(at + 2);
  return how === 1 ? word.slice(0, at) + word.slice(at + 1) : word.slice(0, at) + word[at]! + word.slice(at);
}
