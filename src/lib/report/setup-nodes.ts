import type { AskedPair } from '../job/pairs.ts';
import { surfacesIn } from '../job/proof.ts';
import { quantity } from '../job/said-field.ts';
import type { JobState } from '../job/state.ts';
import type { Quantity } from '../record/kinds/reading.ts';
import type { Limit, Material, Room, Surface } from '../record/kinds/setup.ts';
import type { Moment, RecordAcceptance, RecordLimit, RecordMaterial, RecordPair, RecordRoom, RecordSurface } from './record-document.ts';

export function recordRoom(room: Room, job: JobState): RecordRoom {
  const { name, drain = null, steam = null } = room;
  return { room: room.room, name, drain, steam, surfaces: surfacesIn(room, job).map(({ surface }) => surface) };
}

export function recordSurface(surface: Surface, job: JobState): RecordSurface {
  const size = (said: Quantity | undefined) => (said === undefined ? null : quantity(said));
  return {
    surface: surface.surface,
    name: surface.name,
    place: surface.place,
    system: surface.system,
    room: surface.room ?? null,
    width: size(surface.width),
    height: size(surface.height),
    substrate: surface.substrate ?? null,
    outside: surface.outside ?? null,
    retarder: surface.retarder ?? null,
    accepted: acceptance(surface.surface, job),
  };
}

/** The last survey that speaks of a surface; one that names none speaks of all. */
function acceptance(surface: string, job: JobState): RecordAcceptance | null {
  const survey = job.facts.survey.findLast(({ data, open }) => !open && (data.surfaces.length === 0 || data.surfaces.includes(surface)));
  if (survey === undefined) return null;
  const { id, by, utc, offsetMin, data } = survey;
  return { survey: id, result: data.result, at: { utc, offsetMin }, by };
}

export function recordMaterial({ material, what, name, lot, useBy, opened, left }: Material, job: JobState): RecordMaterial {
  const uses = usesOf(material, job);
  const past = useBy === null ? undefined : uses.find((at) => dayOf(at) > useBy);
  return { material, what, name, lot, useBy, opened: opened ?? null, left: left ?? null, used: uses[0] ?? null, past: past ?? null };
}

/** When a lot was in hand: runs begun with it and batches mixed of it, earliest first. */
function usesOf(material: string, job: JobState): Moment[] {
  const runs = job.runs
    .filter((run) => run.materials.includes(material))
    .map((run) => ({ utc: run.startUtc, offsetMin: run.startOffsetMin }));
  const mixes = job.facts.mix.filter(({ data }) => data.material === material).map(({ utc, offsetMin }) => ({ utc, offsetMin }));
  return [...runs, ...mixes].sort((a, b) => Date.parse(a.utc) - Date.parse(b.utc));
}

/** The calendar day where it happened. A lot may be used all through the day its label prints. */
function dayOf({ utc, offsetMin }: Moment): string {
  return new Date(Date.parse(utc) + offsetMin * 60_000).toISOString().slice(0, 10);
}

export function recordLimit({ limit, what, min, max, unit, scale, source }: Limit): RecordLimit {
  return { limit, what, min, max, unit, scale: scale ?? null, source: { kind: source.kind, text: source.text } };
}

export function recordPair({ material, partner, said }: AskedPair): RecordPair {
  return {
    material: material.material,
    with: partner.is === 'material' ? partner.material.material : partner.code,
    named: said?.data.named ?? null,
    where: said?.data.where ?? '',
    entry: said?.id ?? null,
  };
}
