import { afterEach, describe, expect, it, vi } from 'vitest';
import { deviceIdentity, type Identity } from '#lib/device/identity.ts';
import { ed25519Verify } from '#lib/record/ed25519.ts';
import { MemoryShelf } from '#lib/record/memory-shelf.ts';
import { ShelfError, type Shelf } from '#lib/record/shelf.ts';

afterEach(() => {
  vi.unstubAllGlobals();
  vi.restoreAllMocks();
});

const HASH = new Uint8Array(32).fill(9);

async function signs({ signer }: Identity): Promise<boolean> {
  return ed25519Verify(signer.publicKey!, HASH, (await signer.sign(HASH))!);
}

const kept = (shelf: Shelf) => shelf.read(['meta'], (tx) => tx.get('meta', ['identity'])) as Promise<{ key: object }>;

/** A shelf that refuses to write what `refuses` says, as some private windows refuse a key. */
function refusing(error: ShelfError, refuses: (value: unknown) => boolean): Shelf {
  const shelf = new MemoryShelf();
  return {
    read: (drawers, work) => shelf.read(drawers, work),
    write: (drawers, work) =>
      shelf.write(drawers, (tx) =>
        work({ ...tx, put: (drawer, key, value) => (refuses(value) ? Promise.reject(error) : tx.put(drawer, key, value)) }),
      ),
  };
}

const holdsBrowserKey = (value: unknown) => 'sign' in (value as { key: object }).key;

describe('where the key comes from', () => {
  it.each([
    { phone: 'a browser with Ed25519', prepare: () => new MemoryShelf(), key: 'sign' },
    {
      phone: 'a browser without Ed25519',
      prepare: () => {
        vi.spyOn(crypto.subtle, 'generateKey').mockRejectedValue(new DOMException('no', 'NotSupportedError'));
        return new MemoryShelf();
      },
      key: 'secret',
    },
    {
      phone: 'an address without https',
      prepare: () => {
        vi.stubGlobal('crypto', { getRandomValues: crypto.getRandomValues.bind(crypto) });
        return new MemoryShelf();
      },
      key: 'secret',
    },
    {
      phone: 'a window that cannot keep a browser key',
      prepare: () => refusing(new ShelfError('failed', 'DataCloneError'), holdsBrowserKey),
      key: 'secret',
    },
  ])('$phone: $key, the same at the next start, and it signs', async ({ prepare, key }) => {
    const shelf = prepare();
    const first = await deviceIdentity(shelf);
    expect(Object.keys((await kept(shelf)).key)).toContain(key);
    const next = await deviceIdentity(shelf);
    expect([next.device, next.person, next.signer.publicKey]).toEqual([first.device, first.person, first.signer.publicKey]);
    expect(await signs(next)).toBe(true);
  });

  it.each(['failed', 'full'] as const)('a store that keeps no key at all (%s): unsigned, and says why', async (code) => {
    const { signer } = await deviceIdentity(refusing(new ShelfError(code, 'no'), () => true));
    expect([signer.publicKey, signer.whyNone, await signer.sign(HASH)]).toEqual([null, 'no-key-store', null]);
  });

  it.each(['blocked', 'newer', 'gone'] as const)('a store that cannot be used now (%s): no identity is made up', async (code) => {
    await expect(deviceIdentity(refusing(new ShelfError(code, 'no'), () => true))).rejects.toMatchObject({ code });
  });
});

it('pages that start together end with one identity', async () => {
  const shelf = new MemoryShelf();
  const all = await Promise.all([1, 2, 3].map(() => deviceIdentity(shelf)));
  expect(new Set(all.map(({ device, person, signer }) => `${device} ${person} ${signer.publicKey}`)).size).toBe(1);
  expect(await Promise.all(all.map(signs))).toEqual([true, true, true]);
});

it('a damaged row makes another device of the same person: the old chains are not written to again', async () => {
  const shelf = new MemoryShelf();
  const before = await deviceIdentity(shelf);
  await shelf.write(['meta'], (tx) =>
    tx.put('meta', ['identity'], { device: before.device, person: before.person, key: { secret: new Uint8Array(3) } }),
  );
  const after = await deviceIdentity(shelf);
  expect(after.person).toBe(before.person);
  expect(after.device).not.toBe(before.device);
  expect(await signs(after)).toBe(true);
});
