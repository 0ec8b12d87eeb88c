import { digestHex } from '#lib/device/capture/digest.ts';
import { deviceIdentity } from '#lib/device/identity.ts';
import { openIdbShelf } from '#lib/device/store/idb-shelf.ts';
import { deviceWriter } from '#lib/device/writer.ts';
import { append } from '#lib/record/append.ts';
import { Book } from '#lib/record/book.ts';
import { verifyChains } from '#lib/record/chain.ts';
import { known } from '#lib/record/kinds.ts';

const JOB = 'kill';

/** What the page was told is saved: an entry and the photo it names. */
export interface Ack {
  readonly entry: string;
  readonly sha256: string;
}

/** What a fresh page finds. `unbacked` are entries whose photo is missing, or is not the one they name. */
export interface Found {
  readonly acks: readonly Ack[];
  readonly findings: readonly unknown[];
  readonly unbacked: readonly string[];
}

const shelf = openIdbShelf('layerbook', { superseded: () => undefined });
const book = new Book(shelf);

/** Keeps photos of the given sizes one after another, without end, and tells each the moment it counts as saved. */
export async function shoot(sizes: readonly number[], tell: (ack: Ack) => Promise<void>): Promise<never> {
  const writer = deviceWriter(await deviceIdentity(shelf));
  for (let turn = 0; ; turn++) {
    const bytes = new Uint8Array(sizes[turn % sizes.length]!);
    for (let at = 0; at < bytes.length; at += 65_536) crypto.getRandomValues(bytes.subarray(at, at + 65_536));
    const sha256 = await digestHex(bytes);
    const shot = { picture: { sha256, bytes: bytes.length, type: 'image/jpeg' }, from: 'viewfinder', surface: null } as const;
    const body = new Blob([bytes], { type: 'image/jpeg' });
    const kept = await append(book, JOB, [{ kind: 'shot', data: shot }], [{ sha256, body }], writer);
    if (!kept.ok) throw new Error(JSON.stringify(kept.fault));
    await tell({ entry: kept.value.at(-1)!.hash, sha256 });
  }
}

/** Reads the whole book again and hashes every photo again. */
export async function check(): Promise<Found> {
  const { entries, faults } = await book.log(JOB);
  const acks: Ack[] = [];
  const unbacked: string[] = [];
  for (const entry of entries) {
    const view = known(entry);
    if (view.kind !== 'shot') continue;
    const { sha256 } = view.data.picture;
    acks.push({ entry: entry.hash, sha256 });
    const blob = await book.blob(sha256);
    if (blob === null || (await digestHex(new Uint8Array(await blob.arrayBuffer()))) !== sha256) unbacked.push(entry.hash);
  }
  return { acks, findings: [...faults, ...verifyChains(entries)], unbacked };
}
