import * as m from './compiled/messages.js';

/** One message for each way an archive, or an entry in it, can be other than it should (codes of the record room). */
const SAID = {
  'not-a-zip': m.fault_not_a_zip,
  'not-an-archive': m.fault_not_an_archive,
  'bad-name': m.fault_bad_name,
  'duplicate-name': m.fault_duplicate_name,
  encrypted: m.fault_encrypted,
  overlap: m.fault_overlap,
  'too-many-files': m.fault_too_many_files,
  'too-big': m.fault_too_big,
  'archive-too-large': m.fault_archive_too_large,
  'damaged-file': m.fault_damaged_file,
  'changed-file': m.fault_changed_file,
  'missing-file': m.fault_missing_file,
  'extra-file': m.fault_extra_file,
  'unnamed-file': m.fault_unnamed_file,
  'not-held': m.fault_not_held,
  'manifest-line': m.fault_manifest_line,
  'oxum-differs': m.fault_oxum_differs,
  'entry-unreadable': m.fault_entry_unreadable,
  'entry-misplaced': m.fault_entry_misplaced,
  'head-differs': m.fault_head_differs,
  'newer-archive': m.fault_newer_archive,
  'hash-differs': m.fault_hash_differs,
  'not-canonical': m.fault_not_canonical,
  'signature-fails': m.fault_signature_fails,
  unsigned: m.fault_unsigned,
  'link-broken': m.fault_link_broken,
  gap: m.fault_gap,
  fork: m.fault_fork,
  'no-device-entry': m.fault_no_device_entry,
  'entry-not-json': m.fault_entry_not_json,
  'entry-shape': m.fault_entry_shape,
} as const;

type Said = typeof SAID;

/** A code with the facts its message names. Facts the message leaves out may come along. */
export type SayableFault = { [K in keyof Said]: { readonly code: K } & Readonly<Parameters<Said[K]>[0]> }[keyof Said];

/** What the book says of a finding or fault of an archive, in the language given or else the one in use. */
export function archiveFaultText(fault: SayableFault, locale?: 'en' | 'es'): string {
  const say = SAID[fault.code] as (facts: object, options: { locale?: 'en' | 'es' }) => string;
  return say(fault, locale === undefined ? {} : { locale });
}
