import * as m from '../words/compiled/messages.js';
import { drawnLength } from '../words/drawn-length.ts';
import { CHOICE } from '../words/fields.ts';
import { featureName, placeText } from '../words/place.ts';
import type { Block, Cell, Worded } from './blocks.ts';
import { entryHead, paperEdition, paperTitle } from './paper-frame.ts';
import type { RecordCallback, RecordDocument, RecordLine, RecordReading, RecordShot } from './record-document.ts';
import { saidText } from './said-text.ts';
import { grouped, sentence, speaker, type Locale, type Speaker } from './speaker.ts';
import { photosBlock } from './word-photos.ts';

/** One row of photos, of the layer nearest the tile that has one of the place. */
const PHOTOS = 3;

/** For the person who complained: what to do tonight, what was tried and looked at, what was found. */
export type AnswerDocument = Pick<
  RecordDocument,
  'rules' | 'built' | 'job' | 'heads' | 'chains' | 'people' | 'rooms' | 'surfaces' | 'materials' | 'limits'
> & {
  v: 1;
  paper: 'answer';
  callback: RecordCallback;
  /** Laps read on what lies nearest. */
  readings: RecordReading[];
  shots: RecordShot[];
  /** The callback and the entries of its tests. */
  log: RecordLine[];
};

/** The answer to the callback asked for; else to the latest that is open, or the latest of all. Null where none was written down. */
export function answerOf(record: RecordDocument, asked: string | null = null): AnswerDocument | null {
  const all = record.callbacks ?? [];
  const callback = all.find(({ entry }) => entry === asked) ?? all.findLast(({ open }) => open) ?? all.at(-1);
  if (callback === undefined) return null;
  const { rules, built, job, heads, chains, people, rooms, surfaces, materials, limits } = record;
  const tests = new Set(callback.tests.map(({ entry }) => entry));
  const laps = new Set(callback.places.flatMap(({ near }) => near.flatMap(({ lap }) => (lap === null ? [] : [lap]))));
  const photos = callback.places.flatMap(({ layers }) => {
    const outward = layers.toReversed();
    const layer = outward.find(({ holding }) => holding > 0) ?? outward.find((one) => one.days.length > 0 && one.photos.length > 0);
    return layer?.photos ?? [];
  });
  const shown = [...new Set(photos)].slice(0, PHOTOS);
  const ofCallback = ({ id, kind, state, said }: RecordLine) =>
    state !== 'withdrawn' &&
    (id === callback.entry ||
      tests.has(id) ||
      (kind === 'isolation-look' &&
        said.some((one) => one.field === 'isolation' && one.is === 'ids' && one.ids.some((of) => tests.has(of)))));
  return {
    v: 1,
    paper: 'answer',
    ...{ rules, built, job, heads, chains, people, rooms, surfaces, materials, limits, callback },
    readings: record.readings.filter(({ id }) => laps.has(id)),
    shots: shown.flatMap((id) => record.shots.filter((shot) => shot.id === id)),
    log: record.log.filter(ofCallback),
  };
}

export function wordAnswer(document: AnswerDocument, locales: readonly [Locale, ...Locale[]]): Worded {
  const [locale, ...more] = locales;
  const edition = (one: Locale) => {
    const say = speaker({ systems: [], ownRules: [], ...document }, one);
    const own = say.line(document.callback.entry);
    const head = entryHead(own, say);
    const name = m.answer_part({}, { locale: one });
    return paperEdition(document, say, head, [{ name, blocks: answerBlocks(document, own, say), foot: footOf(document, say) }]);
  };
  return {
    title: `${m.answer_title({}, { locale })}: ${document.job.name || document.job.id}`,
    editions: [edition(locale), ...more.map(edition)],
    logDescription: '',
  };
}

function answerBlocks(document: AnswerDocument, own: RecordLine | null, say: Speaker): Block[] {
  const { locale } = say;
  const { callback, shots } = document;
  const value = (name: string) => {
    const field = own?.said.find((one) => one.field === name);
    return own === null || field === undefined ? '' : saidText(field, own, say);
  };
  const row = (label: string, text: string) => ({ label: { text: label, strong: true } as Cell, text });
  const shows = value('shows');
  const since = own === null || shows === '' ? '' : m.answer_since({ day: say.day(own.at), shows: lowered(shows) }, { locale });
  const looked = callback.places.map((place) => placeText(place, place.unit, locale));
  const rows = [
    row(m.answer_said({}, { locale }), [value('complaint'), since].filter(Boolean).map(sentence).join(' ')),
    row(m.answer_tests({}, { locale }), testsText(callback, say)),
    row(m.answer_looked({}, { locale }), [value('looked'), ...looked].filter(Boolean).map(sentence).join(' ')),
    row(m.answer_found({}, { locale }), value('found') || m.answer_nothing_found({}, { locale })),
    row(m.answer_cause({}, { locale }), value('cause') || m.answer_cause_unknown({}, { locale })),
    row(m.answer_warranty({}, { locale }), value('warranty')),
    row(m.answer_cost({}, { locale }), [value('took'), value('cost')].filter(Boolean).join(', ')),
    row(m.answer_next({}, { locale }), [value('answer'), nextText(callback, say)].filter(Boolean).map(sentence).join(' ')),
  ];
  return [
    // Whoever reads one line reads this one.
    { block: 'paragraph', strong: true, text: tonight(callback, locale) },
    paperTitle(document, say, m.answer_title({}, { locale }), []),
    { block: 'facts', labelShare: 0.22, rows: rows.filter(({ text }) => text !== '') },
    { block: 'heading', level: 2, text: m.answer_behind({}, { locale }) },
    ...(callback.places.length === 0 ? [{ block: 'paragraph' as const, text: m.answer_no_places({}, { locale }) }] : []),
    ...callback.places.flatMap((place) => placeBlocks(place, document, say)),
    ...(shots.length === 0 ? [] : [photosBlock(shots, PHOTOS, say)]),
  ];
}

/** By what is known now: shut the water where a pipe may run, spare the shower while it is open, use it once it is closed. */
function tonight({ open, shows, cause, tests }: RecordCallback, locale: Locale): string {
  const wetter = (test: string) => tests.some((one) => one.test === test && one.outcome === 'wetter');
  const what = !open
    ? m.tonight_closed({}, { locale })
    : cause === 'supply' || wetter('supply') || wetter('unused')
      ? m.tonight_supply({}, { locale })
      : cause === 'drain-line' || wetter('drain-line')
        ? m.tonight_drain_line({}, { locale })
        : m.tonight_open({}, { locale });
  return open && shows === 'room-below' ? `${what} ${m.tonight_ceiling({}, { locale })}` : what;
}

const OUTCOME = {
  wetter: m.callback_outcome_wetter,
  same: m.callback_outcome_same,
  drier: m.callback_outcome_drier,
  open: m.callback_outcome_open,
} as const;

function testsText({ tests }: RecordCallback, { locale, day }: Speaker): string {
  const one = ({ test, outcome, at }: RecordCallback['tests'][number]) =>
    sentence(`${CHOICE[`test.${test}`]({}, { locale })}, ${day(at)}: ${lowered(OUTCOME[outcome]({}, { locale }))}`);
  return tests.map(one).join(' ');
}

function nextText({ open }: RecordCallback, { locale }: Speaker): string {
  return open ? m.answer_next_open({}, { locale }) : m.answer_next_closed({}, { locale });
}

const lowered = (text: string) => text.slice(0, 1).toLowerCase() + text.slice(1);

function placeBlocks(place: RecordCallback['places'][number], { readings }: AnswerDocument, say: Speaker): Block[] {
  const { locale } = say;
  const where = [say.room(place.room), placeText(place, place.unit, locale)].join('. ');
  const thing = (at: number) => {
    const what = place.things[at];
    return m.draw_thing_n({ thing: what === undefined ? '' : CHOICE[`thing.${what}`]({}, { locale }), n: at + 1 }, { locale });
  };
  const near = place.near.map((one) => {
    const lap = readings.find(({ id }) => id === one.lap);
    const proof =
      lap !== undefined
        ? m.behind_lap({ value: `${say.value(lap)} (${lowered(say.verdict(lap.verdict))})` }, { locale })
        : one.shown === 0
          ? m.behind_not_shown({}, { locale })
          : m.behind_shown({ n: one.shown }, { locale });
    const facts = { what: featureName(one, thing, locale), distance: drawnLength(one.away, place.unit, locale), proof: sentence(proof) };
    return m.answer_nearest(facts, { locale });
  });
  const layers = place.layers.map((layer) => {
    const name = layer.coat === null ? say.layer(layer.layer) : m.record_coat({ coat: layer.coat }, { locale });
    const days = [...new Set(layer.days.map(say.day))].join(', ');
    const said = days === '' ? m.answer_layer_bare({ layer: name }, { locale }) : m.answer_layer({ layer: name, days }, { locale });
    const photos = layer.photos.length + layer.morePhotos;
    const more = [
      ...(photos === 0 ? [] : [m.answer_layer_photos({ n: photos }, { locale })]),
      ...(layer.missing === 0 ? [] : [m.answer_layer_missing({ n: layer.missing }, { locale })]),
    ];
    return sentence([said, ...more].join(', '));
  });
  return [
    { block: 'paragraph', strong: true, text: m.answer_place({ place: where }, { locale }) },
    { block: 'paragraph', text: [...layers, ...near].join('\n') },
  ];
}

function footOf({ log }: AnswerDocument, say: Speaker): Block[] {
  const named = log.map((line) => `${say.entry(line)}, ${grouped(line.hash)}`).join('; ');
  return [{ block: 'paragraph', text: `${m.answer_foot({}, { locale: say.locale })} ${named}.` }];
}
