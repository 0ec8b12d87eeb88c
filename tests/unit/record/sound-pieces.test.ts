import { MemoryShelf } from '#lib/record/memory-shelf.ts';
import { SoundPieces, type SoundHead } from '#lib/record/sound-pieces.ts';
import { describe, expect, it } from 'vitest';
import { Disk, PowerShelf } from '../../sim/power-shelf.ts';

const HEAD: SoundHead = { job: 'hall', run: null, surfaces: ['back'], ended: false };
const piece = (n: number) => new Uint8Array(8).fill(n);

describe('pieces of sound', () => {
  it('come back in order, beyond nine too, with the head written last', async () => {
    const store = new SoundPieces(new MemoryShelf());
    for (let n = 0; n < 12; n += 3) await store.append('s', { ...HEAD, ended: n === 9 }, n, [piece(n), piece(n + 1), piece(n + 2)]);
    expect(await store.read('s')).toEqual({ head: { ...HEAD, ended: true }, pieces: Array.from({ length: 12 }, (_, n) => piece(n)) });
  });

  it('of two recordings are apart, and dropping one leaves the other and every draft', async () => {
    const shelf = new MemoryShelf();
    const store = new SoundPieces(shelf);
    await shelf.write(['drafts'], (tx) => tx.put('drafts', ['shooting'], { job: 'hall' }));
    await store.append('s', HEAD, 0, [piece(1)]);
    await store.append('s-2', HEAD, 0, [piece(2)]);
    expect(await store.ids()).toEqual(['s', 's-2']);
    await store.drop('s');
    expect(await store.ids()).toEqual(['s-2']);
    expect(await store.read('s')).toBeNull();
    expect((await store.read('s-2'))?.pieces).toEqual([piece(2)]);
    expect(await shelf.read(['drafts'], (tx) => tx.get('drafts', ['shooting']))).toEqual({ job: 'hall' });
  });

  it('in a form this version does not know are left as they are', async () => {
    const shelf = new MemoryShelf();
    await shelf.write(['drafts'], (tx) => tx.put('drafts', ['sound', 's', 0], piece(1)));
    const store = new SoundPieces(shelf);
    expect(await store.read('s')).toBeNull();
    expect(await store.ids()).toEqual(['s']);
  });
});

it('whatever moment the power goes, what was acknowledged is there, from its beginning and without a gap', async () => {
  for (let cutAt = 1; cutAt <= 60; cutAt++) {
    const disk = new Disk();
    const store = new SoundPieces(new PowerShelf(disk));
    disk.trouble = (operation) => (operation === cutAt ? 'cut' : null);
    let acknowledged = 0;
    const recording = async () => {
      for (let n = 0; n < 8; n++) {
        await store.append('s', HEAD, n, [piece(n)]);
        acknowledged = n + 1;
      }
    };
    await Promise.race([recording(), disk.dark]);
    disk.powerUp(0);
    const left = await new SoundPieces(new PowerShelf(disk)).read('s');
    const pieces = left?.pieces ?? [];
    expect(pieces.length, `cut at ${cutAt}`).toBeGreaterThanOrEqual(acknowledged);
    expect(pieces, `cut at ${cutAt}`).toEqual(Array.from({ length: pieces.length }, (_, n) => piece(n)));
  }
});
