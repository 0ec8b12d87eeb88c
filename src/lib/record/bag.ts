import { ok, fail, type Result } from '../result.ts';
import { HASH_PATTERN } from './hash.ts';

/** The text files of a BagIt bag, version 1.0 (RFC 8493): lines, and nothing of what they mean to a job. */

export const BAGIT_TXT = 'BagIt-Version: 1.0\nTag-File-Character-Encoding: UTF-8\n';
export const MANIFEST = 'manifest-sha256.txt';
export const TAG_MANIFEST = 'tagmanifest-sha256.txt';
export const BAG_INFO = 'bag-info.txt';
export const DECLARATION = 'bagit.txt';

/** SHA-256 by path inside the bag. */
export type Manifest = ReadonlyMap<string, string>;

/** RFC 8493 2.1.3. Two spaces between hash and path, so that `sha256sum -c` reads it as well. */
export function manifestText(rows: Manifest): string {
  return [...rows].map(([path, sha256]) => `${sha256}  ${path}\n`).join('');
}

/** Fault: the number of the first line that is none, from 1. */
export function parseManifest(text: string): Result<Manifest, { line: number }> {
  const rows = new Map<string, string>();
  const lines = linesOf(text);
  for (const [i, line] of lines.entries()) {
    const sha256 = line.slice(0, 64);
    const path = line.slice(66);
    if (!HASH_PATTERN.test(sha256) || line.slice(64, 66) !== '  ' || path === '' || rows.has(path)) return fail({ line: i + 1 });
    rows.set(path, sha256);
  }
  return ok(rows);
}

export type Tag = readonly [label: string, value: string];

/** RFC 8493 2.2.2. */
export function tagText(tags: readonly Tag[]): string {
  return tags.map(([label, value]) => `${label}: ${value}\n`).join('');
}

/** Tags in order; a line that is none is left out, the tag manifest tells whether the file is as it was. */
export function parseTags(text: string): Tag[] {
  return linesOf(text).flatMap((line) => {
    const at = line.indexOf(': ');
    return at < 1 ? [] : [[line.slice(0, at), line.slice(at + 2)] as const];
  });
}

export function tagValues(tags: readonly Tag[], label: string): string[] {
  return tags.filter(([one]) => one === label).map(([, value]) => value);
}

/** Lines of a text whose every line ends; one that does not end is a line too. */
export function linesOf(text: string): string[] {
  const lines = text.split('\n');
  if (lines.at(-1) === '') lines.pop();
  return lines;
}
