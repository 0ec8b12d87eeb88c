import { PROOF_RULES } from '../job/proof-rules.ts';
import { LAYER_OF_STEP } from '../job/systems.ts';
import * as m from '../words/compiled/messages.js';
import type { Block, SectionCell, SectionLayer } from './blocks.ts';
import type { RecordDocument, RecordLayer } from './record-document.ts';
import type { Speaker } from './speaker.ts';

/** The assembly in section, with a gap for each item that is not shown. */
export function sectionBlock(document: RecordDocument, say: Speaker): Block {
  const { locale } = say;
  const said = document.layers.map(
    ({ layer, shown, owed }, i) => `${i + 1} ${say.layer(layer)}, ${m.record_proof_of({ shown, owed }, { locale })}`,
  );
  return {
    block: 'section',
    alt: m.record_section_alt({ layers: said.join('; ') }, { locale }),
    layers: document.layers.map((layer) => sectionLayer(layer, document, say)),
  };
}

function sectionLayer(layer: RecordLayer, document: RecordDocument, say: Speaker): SectionLayer {
  const places = new Map(document.surfaces.map((one) => [one.surface, one.place]));
  const legs = (surfaces: readonly string[]) => [...new Set(surfaces.map((id) => legOf(places.get(id))))];
  const owed = layer.items
    // In the order of the rules, so that a gap keeps its place as its neighbours fill.
    .toSorted((a, b) => ruleIndex(a.rule) - ruleIndex(b.rule))
    .flatMap(({ surfaces, stand }) =>
      legs(surfaces).map((leg): SectionCell => ({ leg, stand: stand === 'shown' || stand === 'owed' ? stand : 'left-out' })),
    );
  // A layer the crew laid without owing anything there lies where they worked.
  const worked = document.runs
    .filter((run) => LAYER_OF_STEP[run.step] === layer.layer)
    .flatMap((run) => (run.surfaces.length === 0 ? [...places.keys()] : run.surfaces));
  const cells = owed.length > 0 ? owed : legs(worked).map((leg): SectionCell => ({ leg, stand: 'shown' }));
  return { layer: layer.layer, name: say.layer(layer.layer), begun: layer.stand !== 'not-begun', cells };
}

function legOf(place: RecordDocument['surfaces'][number]['place'] | undefined): SectionCell['leg'] {
  return place === 'floor' || place === 'curb' ? 'floor' : 'wall';
}

function ruleIndex(id: string): number {
  const index = PROOF_RULES.findIndex((rule) => rule.id === id);
  return index < 0 ? PROOF_RULES.length : index;
}
