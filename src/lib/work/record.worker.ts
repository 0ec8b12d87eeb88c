import { buildRecord } from '#lib/report/build.ts';
import type { Times } from '#lib/record/entry.ts';
import { sha256Hex } from '#lib/record/hash.ts';
import type { BuiltRecord } from '#lib/record/kinds.ts';
import { serve } from './bridge.ts';
import { shrink } from './shrink.ts';
import type * as z from 'zod';

/** What a record is built from. */
export interface RecordOrder {
  readonly raws: readonly string[];
  readonly unreadable: number;
  /** Originals by SHA-256, as handles; what this phone does not hold is left out and named in the record. */
  readonly photos: ReadonlyMap<string, Blob>;
  readonly locale: 'en' | 'es';
  readonly paper: 'letter' | 'a4';
  readonly built: Times;
  readonly by: string;
  /** Addresses of the two weights of the font. */
  readonly fonts: { readonly text: string; readonly strong: string };
}

export interface BuiltPdf {
  readonly pdf: Blob;
  readonly sha256: string;
  readonly data: z.infer<typeof BuiltRecord>;
  /** Pictures made for this record, by their own SHA-256. */
  readonly pictures: readonly { readonly sha256: string; readonly body: Blob }[];
}
