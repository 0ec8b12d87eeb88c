import { attempts } from '#lib/job/flood.ts';
import type { Offer } from '#lib/job/form-offers.ts';
import type { JobState } from '#lib/job/state.ts';
import { KIND, MEASURE, WAIT } from '#lib/words/codes.ts';
import { CHOICE } from '#lib/words/fields.ts';
import * as m from '#lib/words/compiled/messages.js';
import { saidText } from '#lib/words/number.ts';
import { clockText, dayText } from '#lib/words/time.ts';
import { momentLine, whereText } from '../../../wait-views.ts';
import { itemText, lotText, pointedText } from '../log/said-text.ts';

type Lang = 'en' | 'es';

/** What a form offers to speak of, told apart from its like: what it is, where, and its value or its time. */
export function offerText({ is, id }: Offer, job: JobState, nowMs: number, lang: Lang): string {
  if (is === 'item') return itemText(id, job);
  const line = is === 'entry' ? job.lines.find(({ entry }) => entry.body.id === id) : undefined;
  if (line === undefined) return pointedText(id, job, lang);
  const { view } = line.standing;
  const { utc, offsetMin } = line.entry.body.times;
  const when = `${dayText(utc, offsetMin, lang)} ${clockText(utc, offsetMin, lang)}`;
  switch (view.kind) {
    case 'reading': {
      const on = job.surfaces.find(({ surface }) => surface === view.data.surface)?.name;
      return `${[MEASURE[view.data.what](), on].filter(Boolean).join(', ')}: ${saidText(view.data.said, lang)}`;
    }
    case 'wait': {
      const { what, surfaces, readyUtc } = view.data;
      const ready = readyUtc === null ? '' : `, ${momentLine(Date.parse(readyUtc), nowMs, lang)}`;
      return `${WAIT[what]()}, ${whereText(job, surfaces)}${ready}`;
    }
    case 'deviation':
      return `${KIND.deviation()}: ${view.data.what}`;
    case 'pair':
      return `${lotText(view.data.material, job)} / ${lotText(view.data.with, job)}`;
    case 'mix':
      return [view.data.material === null ? KIND.mix() : lotText(view.data.material, job), when].join(', ');
    case 'flood-fill':
      return `${m.page_flood()}, ${m.flood_attempt_n({ n: attempts(job).find((one) => one.id === id)?.n ?? 1 })}, ${when}`;
    case 'callback':
      return `${view.data.complaint.replace(/[\s.,;]+$/, '')}, ${when}`;
    case 'isolation':
      return `${CHOICE[`test.${view.data.test}`]()}, ${when}`;
    default:
      return pointedText(id, job, lang);
  }
}
