import { readDay } from '../measure/day-text.ts';
import type { Draft } from '../record/kinds.ts';
import type { Material, Picture } from '../record/kinds/setup.ts';
import type { MaterialForm, SheetForm } from '../record/setup-drafts.ts';
import { fail, ok, type Result } from '../result.ts';
import { FieldReader, type SetupFault } from './setup-fields.ts';

/** The entry of one lot of a material, or what stands in the way. A use-by in the past is kept: that it was over is what the record must say. */
export function materialDrafts(form: MaterialForm): Result<Draft[], SetupFault[]> {
  const reader = new FieldReader();
  const name = reader.name('name', form.name);
  const lot = reader.words('lot', form.lot);
  const day = form.useBy.trim() === '' ? null : readDay(form.useBy);
  if (day?.ok === false) reader.fault('useBy', day.fault.code === 'in-doubt' ? 'day-in-doubt' : 'not-a-day');
  const opened = reader.count('opened', form.opened);
  const left = reader.count('left', form.left);
  if (opened !== null && left !== null && Number(left) > Number(opened)) reader.fault('left', 'left-over-opened');
  if (reader.faults.length > 0) return fail(reader.faults);
  const useBy = day?.ok === true ? day.value : null;
  const counted = { ...(opened === null ? {} : { opened }), ...(left === null ? {} : { left }) };
  return ok([{ kind: 'material', data: { material: form.material, what: form.what, name, lot, useBy, ...counted } }]);
}

export function emptyMaterial(material: string): MaterialForm {
  return { material, what: 'membrane-sheet', name: '', lot: '', useBy: '', opened: '', left: '' };
}

export function materialForm({ material, what, name, lot, useBy, opened = '', left = '' }: Material): MaterialForm {
  return { material, what, name, lot, useBy: useBy ?? '', opened, left };
}

/** Whether a use-by lies in the past. The day itself still counts. Both YYYY-MM-DD, `today` as the phone's calendar shows it. */
export function isPastUse(useBy: string, today: string): boolean {
  return useBy < today;
}

/** The day an instant had where the phone was, YYYY-MM-DD. `offsetMin`: minutes east of UTC. */
export function dayWhere(utc: string, offsetMin: number): string {
  return new Date(Date.parse(utc) + offsetMin * 60_000).toISOString().slice(0, 10);
}

/** Pages of one sheet that an entry can name. */
export const SHEET_FILES_MAX = 50;

/** The entry of a data sheet with its pages, or what stands in the way. */
export function sheetDrafts(form: SheetForm, files: readonly Picture[]): Result<Draft[], SetupFault[]> {
  const reader = new FieldReader();
  const title = reader.name('title', form.title);
  const edition = reader.words('edition', form.edition);
  if (files.length === 0) reader.fault('files', 'no-file');
  if (files.length > SHEET_FILES_MAX) reader.fault('files', 'too-large');
  if (reader.faults.length > 0) return fail(reader.faults);
  return ok([{ kind: 'data-sheet', data: { sheet: form.sheet, title, edition, materials: [...form.materials], files: [...files] } }]);
}

export function emptySheet(sheet: string): SheetForm {
  return { sheet, title: '', edition: '', materials: [] };
}
