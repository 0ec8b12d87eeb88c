import { ShelfError, type Key, type Shelf } from '#lib/record/shelf.ts';
import type { Signer } from '#lib/record/sign.ts';
import { hex } from './hex.ts';
import { randomId } from './random-id.ts';

/** Who writes from this device: the device itself, the person who holds it, and the device's key. */
export interface Identity {
  readonly device: string;
  readonly person: string;
  readonly signer: Signer;
}

/** As kept in the store. The key is the browser's own and cannot be read out, or, where there is none such, 32 secret bytes. */
interface Kept {
  readonly device: string;
  readonly person: string;
  readonly key: BrowserKey | { readonly secret: Uint8Array };
}

interface BrowserKey {
  readonly sign: CryptoKey;
  readonly publicHex: string;
}

const PLACE: Key = ['identity'];

/**
 * This device's identity: the kept one, or a new one kept now. Pages that start together end with the same, because which one
 * stands is decided inside the write transaction; keys are made before it, since a transaction does not outlast their making.
 * Where the store is open but takes no key of either kind, the device signs nothing and says so, for as long as the page lives.
 * Rejects with ShelfError when the store cannot be used at all.
 */
export async function deviceIdentity(shelf: Shelf): Promise<Identity> {
  const kept = await shelf.read(['meta'], (tx) => tx.get('meta', PLACE));
  if (isKept(kept)) return identityOf(kept);
  const browserKey = await newBrowserKey();
  const stood =
    (browserKey === null ? null : await settle(shelf, { ...newNames(kept), key: browserKey })) ??
    (await settle(shelf, { ...newNames(kept), key: { secret: crypto.getRandomValues(new Uint8Array(32)) } }));
  return stood === null ? { ...newNames(kept), signer: UNSIGNED } : identityOf(stood);
}

const UNSIGNED: Signer = { publicKey: null, whyNone: 'no-key-store', sign: async () => null };

/** A row that no longer makes sense is not mended: the old device's chains stay closed, only the person goes on. */
function newNames(damaged: unknown): { device: string; person: string } {
  const person = typeof damaged === 'object' && damaged !== null ? (damaged as Partial<Kept>).person : undefined;
  return { device: randomId(), person: typeof person === 'string' ? person : randomId() };
}

/** The identity that stands after offering this one; null when the store will not hold it (some windows cannot keep a key). */
async function settle(shelf: Shelf, offered: Kept): Promise<Kept | null> {
  try {
    return await shelf.write(['meta'], async (tx) => {
      const kept = await tx.get('meta', PLACE);
      if (isKept(kept)) return kept;
      await tx.put('meta', PLACE, offered);
      return offered;
    });
  } catch (error) {
    if (error instanceof ShelfError && (error.code === 'failed' || error.code === 'full')) return null;
    throw error;
  }
}

/** A key whose secret never leaves the browser (Web Cryptography Level 2, Ed25519); null where there is none. */
async function newBrowserKey(): Promise<BrowserKey | null> {
  try {
    const pair = await crypto.subtle.generateKey('Ed25519', false, ['sign', 'verify']);
    const publicBytes = new Uint8Array(await crypto.subtle.exportKey('raw', pair.publicKey));
    return { sign: pair.privateKey, publicHex: hex(publicBytes) };
  } catch {
    return null;
  }
}

async function identityOf({ device, person, key }: Kept): Promise<Identity> {
  if ('sign' in key) {
    const sign = async (hash: Uint8Array) => hex(new Uint8Array(await crypto.subtle.sign('Ed25519', key.sign, new Uint8Array(hash))));
    return { device, person, signer: { publicKey: key.publicHex, whyNone: null, sign } };
  }
  const { ed25519Signer } = await import('#lib/record/ed25519.ts');
  return { device, person, signer: ed25519Signer(key.secret) };
}

function isKept(value: unknown): value is Kept {
  if (typeof value !== 'object' || value === null) return false;
  const { device, person, key } = value as Record<string, unknown>;
  if (typeof device !== 'string' || typeof person !== 'string' || typeof key !== 'object' || key === null) return false;
  if ('sign' in key) return key.sign instanceof CryptoKey && 'publicHex' in key && typeof key.publicHex === 'string';
  return 'secret' in key && key.secret instanceof Uint8Array && key.secret.length === 32;
}
