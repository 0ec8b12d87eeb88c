import { namedFiles } from '#lib/record/archive.ts';
import { unpack } from '#lib/record/unpack.ts';
import { verify, type Verification } from '#lib/record/verify.ts';
import { serve } from './bridge.ts';

/** An archive that was found whole, opened: raw entries, and bytes as handles by their hash. `content` is null for any other. */
export interface OpenedArchive {
  readonly verification: Verification;
  readonly content: { readonly raws: readonly string[]; readonly files: ReadonlyMap<string, Blob> } | null;
}

serve<Blob, OpenedArchive>(async (container) => {
  const verification = await verify(container);
  if (verification.verdict !== 'as-written' && verification.verdict !== 'rewritten') return { verification, content: null };
  const opened = await unpack(container);
  if (!opened.ok) throw new Error(`verified, and then not read: ${opened.fault.code}`);
  const { entries, blob } = opened.value;
  const files = new Map<string, Blob>();
  for (const { sha256 } of namedFiles(entries)) {
    const body = await blob(sha256);
    if (body !== null) files.set(sha256, body);
  }
  return { verification, content: { raws: entries.map(({ raw }) => raw), files } };
});
