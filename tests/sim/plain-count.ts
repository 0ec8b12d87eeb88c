import { PROOF_RULES, type ProofRule } from '#lib/job/proof-rules.ts';
import type { FactKind } from '#lib/job/state.ts';
import { LAYER_OF_STEP, LAYERS, stepsOn } from '#lib/job/systems.ts';
import type { Entry } from '#lib/record/entry.ts';
import type { Limit, Step, Surface } from '#lib/record/kinds/setup.ts';
import { sayings, type Saying, type SayingsOf } from './plain-sayings.ts';

export interface PlainCount {
  readonly surfaces: readonly string[];
  /** Keys of what a surface still owes, up to the highest layer anybody worked on there. */
  readonly missing: Readonly<Record<string, readonly string[]>>;
  /** Ids of readings outside their limit and unanswered, with their surface. */
  readonly outside: readonly (readonly [id: string, surface: string | null])[];
}

interface Run {
  readonly id: string;
  readonly at: number;
  readonly step: Step;
  readonly surfaces: readonly string[];
  readonly coat: number | null;
  readonly open: boolean;
}
interface Photo {
  readonly id: string;
  readonly at: number;
  readonly utc: string;
  readonly label: boolean;
  run: string | null;
  step: Step | null;
  coat: number | null;
  surfaces: readonly string[];
  shows: readonly string[];
  sorted: boolean;
}
interface Value {
  readonly id: string;
  readonly utc: string;
  readonly what: string;
  readonly mils: number;
  readonly step: Step | null;
  readonly coat: number;
  readonly surface: string | null;
  readonly control: boolean;
  readonly open: boolean;
}
interface Item {
  readonly key: string;
  readonly layer: number;
  readonly on: readonly string[];
  readonly shown: boolean;
  readonly leftOut: boolean;
}

/**
 * A second opinion on what is owed, counted from the entries in reading order by loops, with nothing of the projection in it. It
 * shares the tables (rules, steps, schemas), since those are what is promised, and none of the code that reads them.
 */
export function plainCount(entries: readonly Entry[]): PlainCount {
  return new Count(entries).result();
}

class Count {
  readonly #of: SayingsOf;
  readonly #surfaces: readonly Surface[];
  readonly #limits: readonly Limit[];
  readonly #ownSystems: { system: string; name: string; steps: Step[] }[];
  readonly #runs: readonly Run[];
  readonly #photos: readonly Photo[];
  readonly #values: readonly Value[];
  readonly #proof: 'core' | 'warranty' | 'full';

  constructor(entries: readonly Entry[]) {
    this.#of = sayings(entries);
    this.#proof = this.#of('job').at(-1)?.data.proof ?? 'core';
    this.#surfaces = latest(this.#of('surface'), ({ surface }) => surface);
    this.#limits = latest(this.#of('limit'), ({ limit }) => limit);
    this.#ownSystems = latest(this.#of('own-system'), ({ system }) => system);
    this.#runs = this.#of('run-start').map(({ id, at, open, data }) => ({
      id,
      at,
      open,
      step: data.step,
      surfaces: data.surfaces,
      coat: data.coat ?? null,
    }));
    this.#photos = this.#of('shot').map((one) => this.#photo(one));
    for (const one of this.#of('tag')) if (!one.open) this.#tag(one);
    this.#values = this.#of('reading').map((one) => this.#value(one));
  }

  result(): PlainCount {
    const items = this.#items();
    const missing = this.#surfaces.map(({ surface }) => {
      const mine = items.filter(({ on }) => on.includes(surface));
      const worked = this.#runs.filter((run) => names(run.surfaces, surface)).flatMap(({ step }) => LAYER_OF_STEP[step] ?? []);
      const top = Math.max(
        -1,
        ...worked.map((layer) => LAYERS.indexOf(layer)),
        ...mine.filter(({ shown }) => shown).map(({ layer }) => layer),
      );
      return [surface, mine.filter(({ layer, shown, leftOut }) => layer <= top && !shown && !leftOut).map(({ key }) => key)] as const;
    });
    return { surfaces: this.#surfaces.map(({ surface }) => surface), missing: Object.fromEntries(missing), outside: this.#outside() };
  }

  #run(id: string | null | undefined, before = Infinity): Run | null {
    return this.#runs.find((run) => run.id === id && run.at < before) ?? null;
  }

  #photo({ id, run, utc, at, data, open }: Saying<'shot'>): Photo {
    const of = this.#run(run, at);
    const surfaces = data.surfaces ?? (data.surface === null ? onlyOne(of) : [data.surface]);
    const shows = data.shows ?? [];
    const label = data.material !== undefined;
    const placed = of !== null || surfaces.length > 0 || shows.length > 0 || label;
    const sorted = data.from !== 'watch' && placed && !open && of?.open !== true;
    return { id, at, utc, label, run: run ?? null, step: of?.step ?? null, coat: of?.coat ?? null, surfaces, shows, sorted };
  }

  #tag({ at, data }: Saying<'tag'>): void {
    for (const photo of this.#photos) {
      if (photo.at > at || !data.shots.includes(photo.id)) continue;
      const into = this.#run(data.run, at);
      photo.run = data.run ?? photo.run;
      photo.step = data.step ?? into?.step ?? photo.step;
      if (into !== null) photo.coat = into.coat;
      photo.surfaces = data.surfaces;
      photo.shows = data.shows ?? [];
      photo.sorted = this.#run(photo.run, at)?.open !== true;
    }
  }

  #value({ id, run, utc, at, data, open }: Saying<'reading'>): Value {
    const of = this.#run(run, at);
    const { what, said, water } = data;
    const surface = data.surface ?? onlyOne(of)[0] ?? null;
    const coat = data.coat ?? of?.coat ?? 1;
    return {
      id,
      utc,
      what,
      mils: mils(said.value, said.unit),
      step: of?.step ?? null,
      coat,
      surface,
      control: water === 'control',
      open: open || of?.open === true,
    };
  }

  #items(): Item[] {
    const rooms = [...latest(this.#of('room'), ({ room }) => room).map(({ room }) => room), 'no-room'];
    const own = latest(this.#of('own-rule'), ({ rule }) => rule).map(({ rule, step, want, places }): ProofRule => {
      const layer = LAYER_OF_STEP[step] ?? 'behind';
      return {
        id: `own-${rule}`,
        layer,
        step,
        want: want === 'shot' ? { shot: true } : { reading: want },
        places,
        core: 'surface',
        warranty: 'surface',
        full: 'surface',
        reason: '',
      };
    });
    const items: Item[] = [];
    for (const room of new Set(rooms)) {
      const inRoom = this.#surfaces.filter((one) => (one.room !== undefined && rooms.includes(one.room) ? one.room : 'no-room') === room);
      for (const rule of [...PROOF_RULES, ...own]) {
        const scope = rule[this.#proof];
        const here = inRoom.filter((one) => this.#isOn(rule, one)).map(({ surface }) => surface);
        if (scope === null || here.length === 0) continue;
        for (const on of scope === 'room' ? [here] : here.map((one) => [one])) {
          for (const coat of this.#coats(rule, on)) {
            const key = `${rule.id}:${scope === 'room' ? room : on[0]}${coat === null ? '' : `:${coat}`}`;
            items.push({
              key,
              layer: LAYERS.indexOf(rule.layer),
              on,
              shown: this.#shown(rule, on, coat),
              leftOut: this.#leftOut(rule, on, key),
            });
          }
        }
      }
    }
    return items;
  }

  #isOn(rule: ProofRule, one: Surface): boolean {
    const steps = stepsOn(one, { ownSystems: this.#ownSystems });
    const always = steps.length > 0 && (rule.step === 'survey' || rule.step === 'behind');
    return rule.places.includes(one.place) && (steps.includes(rule.step) || always);
  }

  #coats(rule: ProofRule, on: readonly string[]): (number | null)[] {
    if (rule.eachCoat !== true) return [null];
    let most = 1;
    for (const { what, min } of this.#limits) if (what === 'coats' && min !== null) most = Math.max(most, Math.ceil(Number(min)));
    for (const run of this.#runs) if (on.some((one) => names(run.surfaces, one))) most = Math.max(most, run.coat ?? 1);
    return Array.from({ length: Math.min(20, most) }, (_, i) => i + 1);
  }

  #shown(rule: ProofRule, on: readonly string[], coat: number | null): boolean {
    if ('entry' in rule.want) return rule.want.entry === 'flood-end' ? this.#passed(on) : this.#stated(rule.want.entry, on);
    const failed = rule.layer === 'flood' ? this.#ends(on).filter(({ data }) => data.result !== 'passed') : [];
    const counts = (utc: string, of: number | null) => failed.every((end) => utc > end.utc) && (coat === null || (of ?? 1) === coat);
    if ('shot' in rule.want)
      return this.#photos.some((photo) => photo.sorted && counts(photo.utc, photo.coat) && this.#answers(photo, rule, on));
    const { reading } = rule.want;
    const good = this.#values.filter((one) => {
      const inStep = one.step === null || one.step === rule.step || one.step === 'repair';
      return one.what === reading && inStep && on.includes(one.surface ?? '-') && counts(one.utc, one.coat) && !one.control && !one.open;
    });
    return good.length >= (this.#proof === 'full' ? (rule.fullTimes ?? 1) : 1);
  }

  #answers(photo: Photo, rule: ProofRule, on: readonly string[]): boolean {
    const named = photo.shows.includes(rule.id) || (rule.id === 'label' && photo.label);
    const overview = rule.overview === true && rule.step === photo.step && photo.shows.length === 0 && !photo.label;
    if (!named && !overview) return false;
    if (photo.surfaces.length > 0) return photo.surfaces.some((one) => on.includes(one));
    if (named && rule.house === true) return true;
    const run = this.#run(photo.run);
    const maybe = this.#surfaces.filter((one) => this.#isOn(rule, one) && (run === null || names(run.surfaces, one.surface)));
    return maybe.length > 0 && maybe.every(({ surface }) => on.includes(surface));
  }

  #leftOut(rule: ProofRule, on: readonly string[], key: string): boolean {
    return this.#of('not-done').some(({ data, open }) => {
      if (open) return false;
      if (data.items.length > 0) return data.items.includes(key);
      return data.step === rule.step && on.every((one) => names(data.surfaces, one));
    });
  }

  #fills(on: readonly string[]): readonly Saying<'flood-fill'>[] {
    return this.#of('flood-fill').filter(({ data }) => on.some((one) => names(data.under, one)));
  }

  #ends(on: readonly string[]): readonly Saying<'flood-end'>[] {
    const fills = this.#fills(on).map(({ id }) => id);
    return this.#of('flood-end').filter(({ data }) => fills.includes(data.attempt));
  }

  #passed(on: readonly string[]): boolean {
    const last = this.#fills(on).at(-1);
    const ends = this.#of('flood-end').filter(({ data }) => data.attempt === last?.id);
    return last?.open === false && ends.length > 0 && ends.every(({ data, open }) => !open && data.result === 'passed');
  }

  #stated(kind: FactKind, on: readonly string[]): boolean {
    let shown = false;
    for (const surface of on) {
      const survey = this.#of('survey').findLast(({ data }) => names(data.surfaces, surface));
      const check = this.#of('tile-check').findLast(({ data }) => names(data.surfaces, surface));
      if (kind === 'survey') {
        if (survey !== undefined && (survey.open || survey.data.result === 'refused')) return false;
        shown ||= survey !== undefined;
      } else if (kind === 'tile-check') {
        if (check !== undefined && (check.open || !(check.data.whole && check.data.dry && check.data.undamaged))) return false;
        shown ||= check !== undefined;
      } else if (kind === 'protect') shown ||= this.#of(kind).some(({ data, open }) => !open && names(data.surfaces, surface));
      else shown ||= this.#of(kind).some(({ open }) => !open);
    }
    return shown;
  }

  #outside(): (readonly [string, string | null])[] {
    const isOut = ({ what, mils: read }: Value) =>
      this.#limits.some((limit) => limit.what === what && limit.min !== null && read < mils(limit.min, limit.unit));
    const isLimited = ({ what }: Value) => this.#limits.some((limit) => limit.what === what && (limit.min !== null || limit.max !== null));
    const open = this.#values.filter((one, i) => {
      if (!isOut(one) || this.#of('deviation').some(({ data, open: contested }) => !contested && data.against === one.id)) return false;
      const mended = this.#of('repair').some(({ data, open: contested }) => !contested && data.of.includes(one.id));
      const again = this.#values.slice(i + 1).filter((later) => later.what === one.what && later.surface === one.surface && !later.open);
      return !(mended && again.some((later) => isLimited(later) && !isOut(later)));
    });
    return open.map(({ id, surface }) => [id, surface] as const);
  }
}

/** A simulated crew measures in inches and mils. */
function mils(value: string, unit: string): number {
  return Number(value) * (unit === 'in' ? 1_000 : 1);
}

/** An empty list names all. */
function names(surfaces: readonly string[], one: string): boolean {
  return surfaces.length === 0 || surfaces.includes(one);
}

function onlyOne(run: Run | null): readonly string[] {
  return run?.surfaces.length === 1 ? run.surfaces : [];
}

/** The data of each id as it was last said, in the order in which the ids first came. */
function latest<T>(said: readonly { readonly data: T }[], idOf: (data: T) => string): T[] {
  return [...new Map(said.map(({ data }) => [idOf(data), data])).values()];
}
