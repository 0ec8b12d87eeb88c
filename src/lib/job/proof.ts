import type { Room, Surface } from '../record/kinds/setup.ts';
import { owedSpots, type SpotsOfRules } from './drawing/owed-spots.ts';
import { judgeReading, proves, type Judged } from './judged.ts';
import { PROOF_RULES, type ProofRule } from './proof-rules.ts';
import type { Fact, FactKind, JobState, Measured, Run, Shot } from './state.ts';
import { LAYERS, LAYER_OF_STEP, stepsOn, type Layer } from './systems.ts';

/** `covered`: the layer went on over it, owned up to with a reason. */
export type OwedStand = 'owed' | 'shown' | 'not-done' | 'covered';

/** One owed item: a rule on one surface, or once a room, with what answers it so far. */
export interface Owed {
  readonly key: string;
  readonly rule: ProofRule;
  readonly room: Room;
  /** The surface it is owed on, or the first that can answer for the room. */
  readonly surface: Surface;
  /** Every surface a proof of it may be taken on: one, or the room's. */
  readonly surfaces: readonly Surface[];
  readonly coat: number | null;
  /** The place of the room's drawing that it is owed of: what is marked there answers it. Null where no place was drawn. */
  readonly spot: string | null;
  /** How many readings it takes, or 1 photo or entry. */
  readonly times: number;
  readonly shot: Shot | null;
  /** The latest reading of this item, and how it stands against its limit. */
  readonly reading: (Measured & { readonly judged: Judged }) | null;
  readonly notDone: Fact<'not-done'> | null;
  readonly stand: OwedStand;
  readonly shown: boolean;
}

export type LayerStand = 'not-begun' | 'owed' | 'shown';

/** A layer of the job with what it owes, over all surfaces that have it. */
export interface LayerProof {
  readonly layer: Layer;
  readonly items: readonly Owed[];
  /** How many of them are shown, and how many were left out with a reason: what is neither is owed. */
  readonly shown: number;
  readonly leftOut: number;
  /** `shown` once nothing is owed of it any more. */
  readonly stand: LayerStand;
  readonly running: readonly Run[];
}

/** What a job owes at its level before any of it is shown: the price said before work starts. */
export interface Price {
  readonly photos: number;
  readonly readings: number;
  readonly entries: number;
  /** Whole minutes, about: own estimate of a quarter minute a photo and half a minute a reading or entry, no source. */
  readonly minutes: number;
}

/** A job without rooms is one room of the job's own name. */
export function roomsOf(job: JobState): readonly Room[] {
  const loose = job.surfaces.some((surface) => !job.rooms.some(({ room }) => room === surface.room));
  return loose || job.rooms.length === 0 ? [...job.rooms, { room: LOOSE, name: job.name }] : job.rooms;
}

/** Id of the room of surfaces that name none. */
const LOOSE = 'no-room';

export function surfacesIn(room: Room, job: JobState): readonly Surface[] {
  const known = new Set(job.rooms.map((one) => one.room));
  return job.surfaces.filter((surface) => (surface.room !== undefined && known.has(surface.room) ? surface.room : LOOSE) === room.room);
}

/**
 * What every layer of the job owes and shows, in order from the substrate inwards: layers that owe something, and those the
 * crew worked on besides. A reading answers its item whatever its verdict: proof owed asks whether it was looked at; the
 * verdict says what was seen.
 */
export function proofOwed(job: JobState): LayerProof[] {
  const rules = [...PROOF_RULES, ...job.ownRules.flatMap(ownRule)];
  const items = roomsOf(job).flatMap((room) => {
    const spots = owedSpots(job, room);
    return rules.flatMap((rule) => owedIn(job, room, rule, spots));
  });
  return LAYERS.flatMap((layer) => {
    const of = items.filter((item) => item.rule.layer === layer);
    const runs = job.runs.filter((run) => LAYER_OF_STEP[run.step] === layer);
    if (of.length === 0 && runs.length === 0) return [];
    const shown = of.filter((item) => item.shown).length;
    const leftOut = of.filter((item) => item.notDone !== null).length;
    const begun = runs.length > 0 || shown > 0;
    const stand = !begun ? 'not-begun' : shown + leftOut === of.length ? 'shown' : 'owed';
    return [{ layer, items: of, shown, leftOut, stand, running: runs.filter((run) => run.stopUtc === null) }];
  });
}

export function price(layers: readonly LayerProof[]): Price {
  const items = layers.flatMap((layer) => layer.items);
  const count = (want: 'shot' | 'reading' | 'entry') =>
    items.filter((item) => want in item.rule.want).reduce((sum, item) => sum + item.times, 0);
  const [photos, readings, entries] = [count('shot'), count('reading'), count('entry')];
  return { photos, readings, entries, minutes: Math.ceil(photos * 0.25 + (readings + entries) * 0.5) };
}

function ownRule({ rule, step, want, places, reason }: JobState['ownRules'][number]): ProofRule[] {
  const layer = LAYER_OF_STEP[step];
  if (layer === null) return [];
  const scope = { core: 'surface', warranty: 'surface', full: 'surface' } as const;
  return [{ id: `own-${rule}`, layer, step, want: want === 'shot' ? { shot: true } : { reading: want }, places, ...scope, reason }];
}

function owedIn(job: JobState, room: Room, rule: ProofRule, spots: SpotsOfRules): Owed[] {
  const scope = rule[job.proof];
  const on = surfacesIn(room, job).filter((surface) => isOn(surface, rule, job));
  if (scope === null || on.length === 0) return [];
  const places = spots[rule.id];
  if (places !== undefined) return places.map((spot) => owed(job, rule, room, on, null, spot));
  const targets = scope === 'room' ? [on] : on.map((surface) => [surface]);
  return targets.flatMap((surfaces) => {
    const coats = rule.eachCoat === true ? Array.from({ length: coatsOwed(job, surfaces) }, (_, i) => i + 1) : [null];
    return coats.map((coat) => owed(job, rule, room, surfaces, coat));
  });
}

function isOn(surface: Surface, rule: ProofRule, job: JobState): boolean {
  return rule.places.includes(surface.place) && hasStep(surface, rule, job);
}

/** Steps every surface has without its system saying so: walls stand open, and somebody looks at the substrate. */
function hasStep(surface: Surface, rule: ProofRule, job: JobState): boolean {
  const steps = stepsOn(surface, job);
  return steps.includes(rule.step) || (steps.length > 0 && (rule.step === 'behind' || rule.step === 'survey'));
}

/** Coats the data sheet asks for, or as many as the crew has begun on these surfaces. */
export function coatsOwed(job: JobState, surfaces: readonly Surface[]): number {
  const stated = job.limits.flatMap((limit) => (limit.what === 'coats' && limit.min !== null ? [Math.ceil(Number(limit.min))] : []));
  const begun = job.runs.filter((run) => run.surfaces.length === 0 || surfaces.some(({ surface }) => run.surfaces.includes(surface)));
  return Math.min(20, Math.max(1, ...stated, ...begun.map((run) => run.coat ?? 1)));
}

function owed(
  job: JobState,
  rule: ProofRule,
  room: Room,
  surfaces: readonly Surface[],
  coat: number | null,
  spot: string | null = null,
): Owed {
  const ids = surfaces.map(({ surface }) => surface);
  const drawn = spot === null ? null : `${room.room}@${spot}`;
  const target = drawn ?? (surfaces.length === 1 && rule[job.proof] === 'surface' ? ids[0]! : room.room);
  const key = [rule.id, target, ...(coat === null ? [] : [String(coat)])].join(':');
  const { want } = rule;
  const marked = spot === null ? null : markedAt(job, room, spot);
  const shows = (one: Shot) => (marked === null ? answers(one, rule, ids, coat, job) : marked.has(one.id) && answersAt(one, rule));
  const reads = (one: Measured) => (marked === null ? isOf(one, rule, ids, coat, job) : marked.has(one.id) && isOfStep(one, rule));
  const shot = 'shot' in want ? (job.shots.findLast(shows) ?? null) : null;
  const read = 'reading' in want ? job.readings.filter((one) => one.what === want.reading && reads(one)) : [];
  const last = read.at(-1) ?? null;
  const reading = last === null ? null : { ...last, judged: judgeReading(last, job.limits) };
  const times = job.proof === 'full' ? (rule.fullTimes ?? 1) : 1;
  const shown =
    'entry' in want ? said(job, want.entry, ids) : shot !== null || read.filter((one) => proves(one, job.limits)).length >= times;
  const notDone = shown ? null : (job.facts['not-done'].findLast((one) => leavesOut(one, key, rule, ids)) ?? null);
  const stand: OwedStand = shown ? 'shown' : notDone === null ? 'owed' : notDone.data.covered ? 'covered' : 'not-done';
  return { key, rule, room, surface: surfaces[0]!, surfaces, coat, spot, times, shot, reading, notDone, stand, shown };
}

/** A photo answers the overview of its step when it was taken for nothing else, and any item that it says it shows. */
function answers(shot: Shot, rule: ProofRule, ids: readonly string[], coat: number | null, job: JobState): boolean {
  if (!shot.sorted || !ofCoat(shot.coat, coat) || isOfFailedTest(shot, rule, ids, job)) return false;
  const named = shot.shows.includes(rule.id) || (rule.id === 'label' && shot.material !== null);
  const overview = rule.overview === true && shot.step === rule.step && shot.shows.length === 0 && shot.material === null;
  return (named && rule.house === true && shot.surfaces.length === 0) || ((named || overview) && isHere(shot, rule, ids, job));
}

/** A photo that names no surface is of the only place it can be of: among the surfaces of its run that owe the item, or of all. */
function isHere(shot: Shot, rule: ProofRule, ids: readonly string[], job: JobState): boolean {
  if (shot.surfaces.length > 0) return shot.surfaces.some((id) => ids.includes(id));
  const on = job.runs.find((run) => run.id === shot.run)?.surfaces ?? [];
  const maybe = job.surfaces.filter((one) => isOn(one, rule, job) && (on.length === 0 || on.includes(one.surface)));
  return maybe.length > 0 && maybe.every((one) => ids.includes(one.surface));
}

function isOf(reading: Measured, rule: ProofRule, ids: readonly string[], coat: number | null, job: JobState): boolean {
  const inStep = isOfStep(reading, rule);
  const here = reading.surface !== null && ids.includes(reading.surface) && ofCoat(reading.coat, coat);
  // The control pan beside the test shows what the air took, not what the floor holds.
  return inStep && here && reading.water !== 'control' && !isOfFailedTest(reading, rule, ids, job);
}

function isOfStep({ step }: Measured, rule: ProofRule): boolean {
  return step === null || step === rule.step || step === 'repair';
}

/** Entries that somebody marked at a place of the room's drawing. */
function markedAt(job: JobState, room: Room, spot: string): ReadonlySet<string> {
  return new Set(job.facts.mark.flatMap(({ data, open }) => (!open && data.room === room.room && data.spot === spot ? [data.of] : [])));
}

/** A photo marked at a place answers for it when it is of the layer, or says that it shows it. */
function answersAt(shot: Shot, rule: ProofRule): boolean {
  return shot.sorted && (shot.shows.includes(rule.id) || (shot.step !== null && LAYER_OF_STEP[shot.step] === rule.layer));
}

/**
 * The latest entry that would answer for an item's place of the drawing once it is marked there, and is marked nowhere yet: a reading of its
 * measure, or a photo that says it shows it. Null where it is still to be taken.
 */
export function toMark({ rule, spot }: Pick<Owed, 'rule' | 'spot'>, job: JobState): string | null {
  if (spot === null) return null;
  const marked = new Set(job.facts.mark.map(({ data }) => data.of));
  const { want } = rule;
  const entries: readonly { readonly id: string }[] =
    'reading' in want
      ? job.readings.filter((one) => one.what === want.reading && isOfStep(one, rule))
      : job.shots.filter((one) => one.sorted && one.shows.includes(rule.id));
  return entries.findLast(({ id }) => !marked.has(id))?.id ?? null;
}

/** Of a flood attempt that failed or said nothing: the next one is set up, photographed and measured anew. */
function isOfFailedTest({ utc }: { readonly utc: string }, rule: ProofRule, ids: readonly string[], job: JobState): boolean {
  if (rule.layer !== 'flood') return false;
  const attempts = new Set(attemptsOn(job, ids).map(({ id }) => id));
  return job.facts['flood-end'].some(({ data, utc: ended }) => attempts.has(data.attempt) && data.result !== 'passed' && utc <= ended);
}

function attemptsOn(job: JobState, ids: readonly string[]): readonly Fact<'flood-fill'>[] {
  return job.facts['flood-fill'].filter(({ data }) => data.under.length === 0 || data.under.some((id) => ids.includes(id)));
}

/** A run that counts no coats is the first. */
function ofCoat(coat: number | null, wanted: number | null): boolean {
  return wanted === null || (coat ?? 1) === wanted;
}

/**
 * Whether an entry of the kind proves the item. One without surfaces speaks of all. Where an entry can say no (a refused
 * substrate, a membrane found cut) the latest of each surface decides, and one that two people contest says no.
 */
function said(job: JobState, kind: FactKind, ids: readonly string[]): boolean {
  if (kind === 'flood-end') return floodPassed(job, ids);
  const speaks = ({ data }: Fact, id: string) => {
    const on = 'surfaces' in data ? (data.surfaces as readonly string[]) : [];
    return on.length === 0 || on.includes(id);
  };
  const canRefuse = kind === 'survey' || kind === 'tile-check';
  const facts: readonly Fact[] = job.facts[kind].filter((fact) => canRefuse || !fact.open);
  const latest = ids.flatMap((id) => facts.findLast((fact) => speaks(fact, id)) ?? []);
  return latest.length > 0 && latest.every((fact) => !fact.open && !refuses(fact.data));
}

function refuses(data: Fact['data']): boolean {
  if ('drop' in data) return data.result === 'refused';
  return 'undamaged' in data && !(data.whole && data.dry && data.undamaged);
}

/** Only by the latest attempt, and only when nobody says otherwise of it. */
function floodPassed(job: JobState, ids: readonly string[]): boolean {
  const attempt = attemptsOn(job, ids).at(-1);
  const ends = job.facts['flood-end'].filter(({ data }) => data.attempt === attempt?.id);
  return attempt?.open === false && ends.length > 0 && ends.every(({ data, open }) => data.result === 'passed' && !open);
}

function leavesOut({ data, open }: Fact<'not-done'>, key: string, rule: ProofRule, ids: readonly string[]): boolean {
  if (open) return false;
  if (data.items.length > 0) return data.items.includes(key);
  return data.step === rule.step && (data.surfaces.length === 0 || ids.every((id) => data.surfaces.includes(id)));
}
