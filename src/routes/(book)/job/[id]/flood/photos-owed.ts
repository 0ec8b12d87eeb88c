import type { LayerProof } from '#lib/job/proof.ts';

/** A photo of the flood test that is owed on a surface, and whether it is there. */
export interface PhotoOwed {
  readonly key: string;
  readonly rule: string;
  readonly surface: string;
  readonly name: string;
  readonly shown: boolean;
}

/** Before the water, while it stands, and when it is over. */
const WHEN = { before: ['plug', 'ceiling-before'], during: ['filled'], after: ['line-after', 'ceiling-after'] } as const;

/** The photos owed at a time of the test on the surfaces under water; on all floors while none is chosen. */
export function photosOwed(layers: readonly LayerProof[], times: readonly (keyof typeof WHEN)[], under: readonly string[]): PhotoOwed[] {
  const rules: readonly string[] = times.flatMap((time) => WHEN[time]);
  return layers
    .flatMap(({ items }) => items)
    .filter((item) => rules.includes(item.rule.id) && (under.length === 0 || item.surfaces.some(({ surface }) => under.includes(surface))))
    .map((item) => ({
      key: item.key,
      rule: item.rule.id,
      surface: item.surface.surface,
      name: item.surface.name,
      shown: item.stand !== 'owed',
    }));
}
