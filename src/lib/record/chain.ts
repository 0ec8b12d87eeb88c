import { hexToBytes } from '@noble/hashes/utils.js';
import { canonicalText } from './canonical.ts';
import { ed25519Verify } from './ed25519.ts';
import { bodyHash, type Entry } from './entry.ts';
import { known } from './kinds.ts';

export type ChainFinding =
  | { code: 'hash-differs'; device: string; seq: number }
  /** The kept text is not the RFC 8785 form of what it says: another reader could see another entry in it. */
  | { code: 'not-canonical'; device: string; seq: number }
  | { code: 'signature-fails'; device: string; seq: number }
  | { code: 'unsigned'; device: string; seq: number }
  | { code: 'link-broken'; device: string; seq: number }
  | { code: 'gap'; device: string; seq: number; expected: number }
  | { code: 'fork'; device: string; seq: number }
  | { code: 'no-device-entry'; device: string; seq: number };

/** Findings that an honest log may carry: they are said, and change no verdict. */
export const HARMLESS: ReadonlySet<ChainFinding['code']> = new Set(['unsigned']);

/**
 * Checks every chain among the entries of a job: hashes recomputed from the body, each `prev`, no gap, no fork, each signature
 * under the key that entry 0 of its chain introduced. Returns what is wrong, each finding with its place; empty when all is well.
 */
export function verifyChains(entries: readonly Entry[]): ChainFinding[] {
  const chains = Map.groupBy(entries, (entry) => `${entry.body.job} ${entry.body.device}`);
  return [...chains.values()].flatMap((chain) => verifyChain([...chain].sort((a, b) => a.body.seq - b.body.seq)));
}

function verifyChain(chain: readonly Entry[]): ChainFinding[] {
  const findings: ChainFinding[] = [];
  const device = chain[0]!.body.device;
  const publicKey = introducedKey(chain[0]!);
  if (publicKey === undefined) findings.push({ code: 'no-device-entry', device, seq: chain[0]!.body.seq });
  chain.forEach((entry, i) => {
    const { seq } = entry.body;
    const before = chain[i - 1];
    const expected = before === undefined ? 0 : before.body.seq + 1;
    if (before !== undefined && before.body.seq === seq) findings.push({ code: 'fork', device, seq });
    else if (seq !== expected) findings.push({ code: 'gap', device, seq, expected });
    else if (entry.body.prev !== (before?.hash ?? null)) findings.push({ code: 'link-broken', device, seq });
    const text = canonical(entry);
    if (text.hash !== entry.hash) findings.push({ code: 'hash-differs', device, seq });
    else if (text.envelope !== entry.raw) findings.push({ code: 'not-canonical', device, seq });
    if (entry.sig.alg === 'none') {
      // A chain that introduced a key and then stops signing is not an honest unsigned stretch.
      findings.push({ code: typeof publicKey === 'string' ? 'signature-fails' : 'unsigned', device, seq });
    } else if (typeof publicKey !== 'string' || !ed25519Verify(publicKey, hexToBytes(entry.hash), entry.sig.hex)) {
      findings.push({ code: 'signature-fails', device, seq });
    }
  });
  return findings;
}

/** Hash of the raw text's body (never of the typed view) and the RFC 8785 form of all of it; null when it may not be hashed at all. */
function canonical(entry: Entry): { hash: string | null; envelope: string | null } {
  try {
    const envelope = JSON.parse(entry.raw) as { body: unknown };
    return { hash: bodyHash(envelope.body), envelope: canonicalText(envelope) };
  } catch {
    return { hash: null, envelope: null };
  }
}

function introducedKey(entry: Entry): string | null | undefined {
  const view = known(entry);
  if (entry.body.seq !== 0 || view.kind !== 'device') return undefined;
  return view.data.key.alg === 'ed25519' ? view.data.key.public : null;
}
