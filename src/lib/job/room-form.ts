import type { Draft } from '../record/kinds.ts';
import type { Room, Surface } from '../record/kinds/setup.ts';
import type { RoomForm, SurfaceForm } from '../record/setup-drafts.ts';
import { fail, ok, type Result } from '../result.ts';
import { FieldReader, lookOf, type SetupFault } from './setup-fields.ts';
import type { JobState } from './state.ts';

/**
 * The entry of a room, or what stands in the way. With `copyOf` also the surfaces of that room under new ids: their names, places,
 * systems, sizes and substrates, and what lies behind them. What was done in the other room is not copied.
 */
export function roomDrafts(form: RoomForm, job: JobState, newId: () => string): Result<Draft[], SetupFault[]> {
  const reader = new FieldReader();
  const name = reader.name('name', form.name);
  if (job.rooms.some((one) => one.room !== form.room && lookOf(one.name) === lookOf(name))) reader.fault('name', 'same-name');
  if (reader.faults.length > 0) return fail(reader.faults);
  const drain = form.drain === '' ? {} : { drain: form.drain };
  const room: Draft = { kind: 'room', data: { room: form.room, name, ...(form.steam ? { steam: true } : {}), ...drain } };
  const copied = form.copyOf === null ? [] : job.surfaces.filter((surface) => surface.room === form.copyOf);
  const surfaces = copied.map((surface): Draft => ({ kind: 'surface', data: { ...surface, surface: newId(), room: form.room } }));
  return ok([room, ...surfaces]);
}

export function emptyRoom(room: string): RoomForm {
  return { room, copyOf: null, name: '', steam: false, drain: '' };
}

export function roomForm({ room, name, steam = false, drain }: Room): RoomForm {
  return { room, copyOf: null, name, steam, drain: drain ?? '' };
}

/** A surface, new or changed, or what stands in the way. Its name is its own within its room. */
export function surfaceDrafts(form: SurfaceForm, job: JobState): Result<Draft[], SetupFault[]> {
  const reader = new FieldReader();
  const name = reader.name('name', form.name);
  const others = job.surfaces.filter((one) => one.surface !== form.surface && (one.room ?? null) === form.room);
  if (others.some((one) => lookOf(one.name) === lookOf(name))) reader.fault('name', 'same-name');
  const width = reader.size('width', form.width);
  const height = reader.size('height', form.height);
  if (reader.faults.length > 0) return fail(reader.faults);
  const data: Surface = {
    surface: form.surface,
    name,
    place: form.place,
    system: form.system,
    ...(form.room === null ? {} : { room: form.room }),
    ...(width === null ? {} : { width }),
    ...(height === null ? {} : { height }),
    ...(form.substrate === '' ? {} : { substrate: form.substrate }),
    ...(form.outside === 'unknown' ? {} : { outside: form.outside }),
    ...(form.retarder === 'unknown' ? {} : { retarder: form.retarder }),
  };
  return ok([{ kind: 'surface', data }]);
}

/** An empty form: the system of the surfaces beside it, since a room mostly has one. */
export function emptySurface(surface: string, room: string | null, job: JobState): SurfaceForm {
  const beside = job.surfaces.findLast((one) => (one.room ?? null) === room) ?? job.surfaces.at(-1);
  const system = beside?.system ?? 'sheet-and-liquid';
  return { surface, room, name: '', place: 'wall', system, width: '', height: '', substrate: '', outside: 'unknown', retarder: 'unknown' };
}

export function surfaceForm({ surface, room, name, place, system, width, height, substrate, outside, retarder }: Surface): SurfaceForm {
  return {
    surface,
    room: room ?? null,
    name,
    place,
    system,
    width: width?.text ?? '',
    height: height?.text ?? '',
    substrate: substrate ?? '',
    outside: outside ?? 'unknown',
    retarder: retarder ?? 'unknown',
  };
}
