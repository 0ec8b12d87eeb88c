import { describe, expect, it } from 'vitest';
import { append } from '#lib/record/append.ts';
import { Book } from '#lib/record/book.ts';
import { crewDay, missing, nothingTold, photo, simulatedWriter } from '../sim/crew-day.ts';
import { Disk, PowerShelf, type Trouble } from '../sim/power-shelf.ts';

/** The first rounds in which something is wrong, each with the seed that repeats it. */
async function wrongRounds(rounds: number, durability: 'strict' | 'relaxed'): Promise<string[]> {
  const wrong: string[] = [];
  for (let seed = 1; seed <= rounds && wrong.length < 5; seed++) {
    const faults = await crewDay(seed, durability);
    if (faults.length > 0) wrong.push(`seed ${seed}: ${faults.join('; ')}`);
  }
  return wrong;
}

describe('power cut at a random operation', () => {
  it(
    '10,000 rounds: nothing that was told saved is lost, nothing is half, the chain verifies and goes on',
    { timeout: 180_000 },
    async () => {
      expect(await wrongRounds(10_000, 'strict')).toEqual([]);
    },
  );

  it('on a store that does not flush, the same rounds do lose what was told saved', async () => {
    expect((await wrongRounds(200, 'relaxed')).join('\n')).toMatch(/lost entry/);
  });
});

describe('trouble at operation n = 1, 2, ... of keeping a photo, until it passes', () => {
  const TROUBLES: readonly Trouble[] = ['full', 'gone', 'failed', 'blocked', 'newer', 'hang', 'cut'];

  it.each(TROUBLES)('%s', async (trouble) => {
    const outcomes = new Set<string>();
    let n = 0;
    for (let passed = false; !passed;) {
      n += 1;
      const disk = new Disk();
      const told = nothingTold();
      const before = await append(
        new Book(new PowerShelf(disk)),
        'job-1',
        [{ kind: 'person', data: { person: 'ana', name: 'Ana' } }],
        [],
        simulatedWriter('before'),
      );
      if (before.ok) told.raws.push(...before.value.map((entry) => entry.raw));
      disk.reload();
      disk.trouble = (operation) => (operation === n ? trouble : null);
      const bytes = new Uint8Array(50).fill(n);
      const { draft, blob } = photo(bytes);
      const keeping = append(new Book(new PowerShelf(disk)), 'job-1', [draft], [blob], simulatedWriter('during'));
      // Everything here runs in microtasks, so what has not settled by the next task never will.
      const done = await Promise.race([keeping, new Promise<null>((resolve) => setImmediate(() => resolve(null)))]);
      passed = disk.operations < n;
      if (trouble === 'cut') disk.powerUp(0);
      else disk.reload();
      if (done?.ok) {
        told.raws.push(...done.value.map((entry) => entry.raw));
        told.pictures.set(blob.sha256, bytes);
      } else if (done !== null) {
        expect(done.fault, `operation ${n}`).toMatchObject({ code: 'not-saved', why: trouble });
      }
      expect(await missing(disk, told), `operation ${n}`).toEqual([]);
      const book = new Book(new PowerShelf(disk));
      const [entries, blobs] = [(await book.log('job-1')).entries.length, (await book.blobCount()).count];
      outcomes.add(`${done?.ok === true ? 'told saved' : 'not told'}, ${entries - 2} entry and ${blobs} photo further`);
      const again = await append(book, 'job-1', [draft], [blob], simulatedWriter('after'));
      expect(again.ok, `again after operation ${n}`).toBe(true);
    }
    expect([...outcomes].toSorted()).toEqual([
      'not told, 0 entry and 0 photo further',
      'not told, 1 entry and 1 photo further',
      'told saved, 1 entry and 1 photo further',
    ]);
    expect(n).toBeGreaterThan(12);
  });
});
