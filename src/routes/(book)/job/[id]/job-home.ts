import { judgeSaid } from '#lib/job/judged.ts';
import type { ClearToCover, LayerProof } from '#lib/job/proof.ts';
import type { JobState } from '#lib/job/project.ts';
import type { Layer } from '#lib/job/systems.ts';
import type { Measure } from '#lib/record/kinds/reading.ts';
import type { LayerView } from '#lib/ui/section/layer-view.ts';
import { LAYER, OWED, VERDICT } from '#lib/words/codes.ts';
import * as m from '#lib/words/compiled/messages.js';
import { saidText } from '#lib/words/number.ts';
import { clockText } from '#lib/words/time.ts';

type Lang = 'en' | 'es';

/** The section's layers in words: each with the one fact that matters most about it. */
export function layerViews(layers: readonly LayerProof[], job: JobState, open: Layer | null, lang: Lang): LayerView[] {
  return layers.map((layer) => ({
    layer: layer.layer,
    name: LAYER[layer.layer](),
    note: note(layer, job, lang),
    stand: layer.stand,
    shown: layer.shown,
    total: layer.items.length,
    open: layer.layer === open,
    items: layer.items.map((item) => ({
      key: item.key,
      name: `${OWED[item.rule.id as keyof typeof OWED]()}, ${item.surface.name}`,
      place: item.surface.place,
      want: 'reading' in item.rule.want ? 'reading' : 'shot',
      shown: item.shown,
      ...(item.reading === null ? {} : { verdict: item.reading.judged.verdict }),
    })),
  }));
}

function note(layer: LayerProof, job: JobState, lang: Lang): string {
  const run = layer.running.at(-1);
  if (run !== undefined) return m.running_since({ time: clockText(run.startUtc, run.startOffsetMin, lang) });
  const last = layer.items.flatMap((item) => (item.reading === null ? [] : [item.reading])).at(-1);
  if (last !== undefined) return `${VERDICT[judgeSaid(last.what, last.said, job.limits).verdict]()}. ${saidText(last.said, lang)}`;
  return layer.stand === 'not-begun' ? m.state_not_begun() : layer.stand === 'shown' ? m.state_shown() : m.photos_taken();
}

/** What still stands in the way of covering, as one sentence. */
export function missingText(cover: ClearToCover): string {
  const readings = cover.missing.filter((item) => 'reading' in item.rule.want).length;
  const shots = cover.missing.length - readings;
  if (cover.missing.length === 0) return m.nothing_missing();
  if (readings === 0) return m.owes_shots({ n: shots });
  return shots === 0 ? m.owes_readings({ n: readings }) : m.owes_both({ shots: m.n_shots({ n: shots }), readings: m.n_readings({ n: readings }) });
}

/** Where a reading is taken: of a measure, or of whatever the run measures. */
export function readHref(job: string, measure: Measure | null, run: string, surface: string | null): string {
  const query = new URLSearchParams({ run, ...(measure === null ? {} : { what: measure }), ...(surface === null ? {} : { surface }) });
  return `/job/${job}/read?${query}`;
}

export function shootHref(job: string, run: string | null, surface: string | null): string {
  const query = new URLSearchParams({ ...(run === null ? {} : { run }), ...(surface === null ? {} : { surface }) });
  return `/job/${job}/shoot?${query}`;
}

