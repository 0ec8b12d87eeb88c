import { describe, expect, it } from 'vitest';
import type { EntryFault } from '#lib/record/entry.ts';
import type { Finding } from '#lib/record/verify.ts';
import type { ZipWriteFault } from '#lib/record/zip-write.ts';
import { archiveFaultText } from '#lib/words/archive-fault.ts';

type Fault = Finding | EntryFault | ZipWriteFault;
type Facts<C extends Fault['code']> = Omit<Extract<Fault, { code: C }>, 'code'>;

const file = 'data/photos/x.jpg';
const entry = { device: 'phone-a', seq: 7 };
/** One of each: the compiler wants a new code here, and its message with it. */
const ONE_OF_EACH: { [C in Fault['code']]: Facts<C> } = {
  'not-a-zip': { detail: '' },
  'not-an-archive': {},
  'bad-name': { file },
  'duplicate-name': { file },
  encrypted: { file },
  overlap: { file },
  'too-many-files': { max: 65_534 },
  'too-big': { file, max: 9 },
  'archive-too-large': { bytes: 10, max: 9 },
  'damaged-file': { file, detail: '' },
  'changed-file': { file },
  'missing-file': { file },
  'extra-file': { file },
  'unnamed-file': { file },
  'not-held': { file },
  'manifest-line': { file, line: 3 },
  'oxum-differs': { said: '10.2', counted: '9.1' },
  'entry-unreadable': { file, line: 3 },
  'entry-misplaced': { file, line: 3 },
  'head-differs': entry,
  'newer-archive': { version: '2' },
  'hash-differs': entry,
  'not-canonical': entry,
  'signature-fails': entry,
  unsigned: entry,
  'link-broken': entry,
  gap: { ...entry, expected: 5 },
  fork: entry,
  'no-device-entry': entry,
  'entry-not-json': { at: 'line 3' },
  'entry-shape': { at: 'line 3', field: 'body.seq', message: '' },
};

describe('what is wrong with an archive is said in both languages, with every fact that tells where', () => {
  for (const [code, facts] of Object.entries(ONE_OF_EACH)) {
    it(code, () => {
      const fault = { code, ...facts } as Fault;
      const texts = (['en', 'es'] as const).map((locale) => archiveFaultText(fault, locale));
      expect(texts[0]).not.toBe(texts[1]);
      const { file, device, seq, line, at } = facts as Partial<Record<string, string | number>>;
      for (const text of texts) {
        expect(text).toMatch(/^[^{}]+\.$/);
        expect(text).not.toContain('undefined');
        for (const fact of [file, device, seq, line, at]) if (fact !== undefined) expect(text).toContain(String(fact));
      }
    });
  }
});
