import { chainsOf } from '../record/archive.ts';
import type { Entry } from '../record/entry.ts';
import { known } from '../record/kinds.ts';
import type { RecordChain, RecordHead } from './record-document.ts';

/** The last entry of each chain, in order of device. */
export function recordHeads(entries: readonly Entry[]): RecordHead[] {
  return chainsOf(entries).map(([device, chain]) => {
    const { body, hash } = chain.at(-1)!;
    return { device, seq: body.seq, hash };
  });
}

/** Who signed each chain, and its unsigned stretches. */
export function recordChains(entries: readonly Entry[]): RecordChain[] {
  return chainsOf(entries).map(([device, chain]) => {
    const first = known(chain[0]!);
    const key = first.kind === 'device' ? first.data.key : null;
    const unsigned: RecordChain['unsigned'] = [];
    for (const { sig, body } of chain) {
      if (sig.alg !== 'none') continue;
      const last = unsigned.at(-1);
      if (last?.to === body.seq - 1) last.to = body.seq;
      else unsigned.push({ from: body.seq, to: body.seq });
    }
    return { device, key: key && introduced(key), entries: chain.length, unsigned };
  });
}

function introduced(key: { alg: 'ed25519'; public: string } | { alg: 'none'; why: string }): NonNullable<RecordChain['key']> {
  return key.alg === 'ed25519' ? { alg: key.alg, public: key.public } : { alg: key.alg, why: key.why };
}

/** Every entry, in order of device, then sequence. */
export function inOrder(entries: readonly Entry[]): Entry[] {
  return chainsOf(entries).flatMap(([, chain]) => chain);
}

/** The log as it is attached: every raw entry on a line of its own, in order of device, then sequence. */
export function logText(entries: readonly Entry[]): string {
  return inOrder(entries)
    .map((entry) => `${entry.raw}\n`)
    .join('');
}
