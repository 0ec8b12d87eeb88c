import { judgeSaid } from '#lib/job/judged.ts';
import type { JobState } from '#lib/job/project.ts';
import type { Entry } from '#lib/record/entry.ts';
import { known, type Kind } from '#lib/record/kinds.ts';
import { FROM, MEASURE, PLACE, STEP, SYSTEM, VERDICT } from '#lib/words/codes.ts';
import * as m from '#lib/words/compiled/messages.js';
import { limitSourceText, limitText } from '#lib/words/limit.ts';
import { saidText } from '#lib/words/number.ts';

type Lang = 'en' | 'es';

/** One entry as the log shows it. */
export interface LogLine {
  readonly key: string;
  readonly utc: string;
  readonly offsetMin: number;
  readonly kind: Kind | 'unknown';
  readonly text: string;
  readonly by: string;
  readonly picture: string | null;
}

/** Every entry of the job in reading order, none left out. */
export function logLines(job: JobState, lang: Lang): LogLine[] {
  return job.lines.map(({ entry }) => {
    const { utc, offsetMin } = entry.body.times;
    const view = known(entry);
    return {
      key: `${entry.body.device} ${entry.body.seq} ${entry.hash}`,
      utc,
      offsetMin,
      kind: view.kind,
      text: text(entry, job, lang),
      by: job.people[entry.body.by] ?? '',
      picture: view.kind === 'shot' ? view.data.picture.sha256 : null,
    };
  });
}

function text(entry: Entry, job: JobState, lang: Lang): string {
  const view = known(entry);
  const surface = (id: string | null) => job.surfaces.find((one) => one.surface === id)?.name ?? null;
  const run = job.runs.find((one) => one.id === entry.body.run);
  switch (view.kind) {
    case 'device':
      return view.data.key.alg === 'none' ? m.device_unsigned() : '';
    case 'person':
      return view.data.name;
    case 'job':
      return listed(view.data.name, view.data.address);
    case 'surface':
      return listed(view.data.name, PLACE[view.data.place](), SYSTEM[view.data.system]());
    case 'limit':
      return `${MEASURE[view.data.what]()}: ${limitText(view.data, lang)}. ${limitSourceText(view.data)}`;
    case 'run-start':
      return listed(STEP[view.data.step](), ...view.data.surfaces.map(surface));
    case 'run-stop':
      return listed(run === undefined ? null : STEP[run.step](), view.data.end === 'about' ? m.about() : null);
    case 'shot':
      return listed(run === undefined ? m.no_step_running() : STEP[run.step](), surface(view.data.surface), FROM[view.data.from]());
    case 'reading': {
      const { verdict } = judgeSaid(view.data.what, view.data.said, job.limits);
      return `${listed(MEASURE[view.data.what](), surface(view.data.surface))}: ${saidText(view.data.said, lang)}. ${VERDICT[verdict]()}`;
    }
    case 'clock-jump':
      return m.clock_jump_text({ seconds: Math.round(view.data.wallDeltaMs / 1000) });
    case 'record':
      return view.data.pdf.sha256.slice(0, 16);
    case 'unknown':
      return entry.body.kind;
  }
}

function listed(...words: (string | null)[]): string {
  return words.filter((word) => word !== null && word !== '').join(', ');
}
