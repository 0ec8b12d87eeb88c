import type { DataOf, Draft } from '../record/kinds.ts';
import type { Material, SUBSTRATES } from '../record/kinds/setup.ts';
import type { Fact, JobState } from './state.ts';

export type Named = DataOf<'pair'>['named'];
export type Substrate = (typeof SUBSTRATES)[number];

/** What a material is used with: another material, or a substrate by its code. */
export type Partner = { readonly is: 'material'; readonly material: Material } | { readonly is: 'substrate'; readonly code: Substrate };

export interface AskedPair {
  readonly material: Material;
  readonly partner: Partner;
  /** What was last said of it; null while nobody has. */
  readonly said: Fact<'pair'> | null;
}

type What = Material['what'];

/**
 * Which kinds of material are asked about together: the bonds that a maker's warranty names both sides of. Common practice, no source.
 */
const TOGETHER: readonly (readonly [What, What])[] = [
  ['membrane-sheet', 'mortar'],
  ['band', 'membrane-sheet'],
  ['collar', 'drain'],
  ['liquid', 'band'],
];
/** Materials that bond to the substrate itself. */
const ON_SUBSTRATE: readonly What[] = ['membrane-sheet', 'liquid', 'primer', 'mortar'];

/** Every pair the job's materials and substrates make, in the order of the table, with what was last said of it. */
export function askedPairs(job: JobState): readonly AskedPair[] {
  const of = (what: What) => job.materials.filter((one) => one.what === what);
  const materials = TOGETHER.flatMap(([one, other]) =>
    of(one).flatMap((material) => of(other).map((beside): AskedPair => pair(job, material, { is: 'material', material: beside }))),
  );
  const substrates = [...new Set(job.surfaces.flatMap(({ substrate }) => (substrate === undefined ? [] : [substrate])))];
  const bonded = job.materials.filter(({ what }) => ON_SUBSTRATE.includes(what));
  const bare = bonded.flatMap((material) => substrates.map((code): AskedPair => pair(job, material, { is: 'substrate', code })));
  return [...materials, ...bare];
}

function pair(job: JobState, material: Material, partner: Partner): AskedPair {
  const other = idOf(partner);
  const isOf = ({ data, open }: Fact<'pair'>) =>
    !open && ((data.material === material.material && data.with === other) || (data.material === other && data.with === material.material));
  return { material, partner, said: job.facts.pair.findLast(isOf) ?? null };
}

function idOf(partner: Partner): string {
  return partner.is === 'material' ? partner.material.material : partner.code;
}

/**
 * The entries of one touch: where the pair is named. Not named is a deviation against that entry, kept with it, so that neither stands
 * without the other. `where` is the page or letter in the person's own words.
 */
export function pairDrafts({ material, partner }: AskedPair, named: Named, where: string, newId: () => string): Draft[] {
  const id = newId();
  const said: Draft = { id, kind: 'pair', data: { material: material.material, with: idOf(partner), named, where } };
  if (named !== 'not-named') return [said];
  // The names the crew gave, and no sentence of ours: the kind of entry says what is wrong between them.
  const what = `${material.name} / ${partner.is === 'material' ? partner.material.name : partner.code}`;
  return [said, { kind: 'deviation', refs: [id], data: { surfaces: [], what, why: '', against: id, accepted: '' } }];
}
