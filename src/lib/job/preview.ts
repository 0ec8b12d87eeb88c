import { ENTRY_VERSION, type Entry } from '../record/entry.ts';
import type { Draft } from '../record/kinds.ts';
import { PROOF_LEVELS, type ProofLevel } from '../record/kinds/setup.ts';
import { project } from './project.ts';
import { price, proofOwed, type Price } from './proof.ts';
import type { JobState } from './state.ts';

/** The job that drafts would make, read by the same projection as a real log. Nothing of it is sealed or kept. */
export function previewJob(drafts: readonly Draft[]): JobState {
  return project(drafts.map(unsealed)).state;
}

/** What the job owes at each level, said before any work starts. */
export function prices(job: JobState): Readonly<Record<ProofLevel, Price>> {
  const levels = PROOF_LEVELS.map((proof) => [proof, price(proofOwed({ ...job, proof }))] as const);
  return Object.fromEntries(levels) as Record<ProofLevel, Price>;
}

function unsealed(draft: Draft, seq: number): Entry {
  const { kind, data, id = `draft-${seq}`, refs = [] } = draft;
  const times = { utc: '2000-01-01T00:00:00.000Z', offsetMin: 0, zone: 'UTC', monoMs: 0, session: 'draft' };
  const body = { v: ENTRY_VERSION, kind, id, job: 'draft', device: 'draft', seq, prev: null, by: 'draft', refs: [...refs], times, data };
  return { raw: `draft-${seq}`, body, hash: '', sig: { alg: 'none' } };
}
