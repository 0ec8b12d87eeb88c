import { limitSourceText, limitText } from '#lib/words/limit.ts';
import { expect, test } from 'vitest';

type Limit = Parameters<typeof limitText>[0];
const limitOf = (
  min: string | null,
  max: string | null,
  unit: Limit['unit'],
  source: Limit['source'] = { kind: 'code', text: 'IPC 312.9' },
): Limit => ({ min, max, unit, source });

test.each<[limit: Limit, en: string, es: string]>([
  [limitOf('2.375', null, 'in'), 'At least 2 3/8 in', 'Al menos 2 3/8 in'],
  [limitOf('60.5', null, 'mm'), 'At least 60.5 mm', 'Al menos 60,5 mm'],
  [limitOf(null, '40', 'mil'), 'At most 40 mil', 'Como máximo 40 mil'],
  [limitOf('25', '40', 'mil'), '25 mil to 40 mil', '25 mil a 40 mil'],
  [limitOf('500', '1000', 'um'), '500 µm to 1000 µm', '500 µm a 1000 µm'],
  [limitOf('0.25', null, 'in/ft'), 'At least 1/4 in/ft', 'Al menos 1/4 in/ft'],
  [limitOf('50', '90', 'F'), '50 °F to 90 °F', '50 °F a 90 °F'],
  [limitOf(null, '85', '%'), 'At most 85 %', 'Como máximo 85 %'],
  [limitOf('4', '24', 'h'), '4 h to 24 h', '4 h a 24 h'],
  [limitOf('2', null, 'count'), 'At least 2', 'Al menos 2'],
  [limitOf(null, '0.5', 'gal'), 'At most 0.5 gal', 'Como máximo 0,5 gal'],
  [limitOf(null, null, 'in'), 'No limit set', 'Sin límite fijado'],
])('%j reads %s, %s', (limit, en, es) => {
  expect([limitText(limit, 'en'), limitText(limit, 'es')]).toEqual([en, es]);
});

test.each<[source: Limit['source'], en: string, es: string]>([
  [{ kind: 'code', text: 'IPC 312.9' }, 'Code: IPC 312.9', 'Código: IPC 312.9'],
  [{ kind: 'data-sheet', text: 'p. 2' }, 'Data sheet: p. 2', 'Ficha técnica: p. 2'],
  [{ kind: 'data-sheet', text: 'Data sheet, p. 2' }, 'Data sheet, p. 2', 'Ficha técnica: Data sheet, p. 2'],
  [{ kind: 'data-sheet', text: 'FICHA TÉCNICA, p. 2' }, 'Data sheet: FICHA TÉCNICA, p. 2', 'FICHA TÉCNICA, p. 2'],
  [{ kind: 'crew', text: 'ours' }, 'Crew rule: ours', 'Regla de la cuadrilla: ours'],
  [{ kind: 'standard', text: 'ASTM D4414' }, 'Standard: ASTM D4414', 'Norma: ASTM D4414'],
])('the source %j reads %s, %s', (source, en, es) => {
  const limit = limitOf('2', null, 'in', source);
  expect([limitSourceText(limit, 'en'), limitSourceText(limit, 'es')]).toEqual([en, es]);
});
