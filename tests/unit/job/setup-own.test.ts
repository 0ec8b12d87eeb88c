import {
  emptyRule,
  ownRuleDrafts,
  ownRuleForm,
  ownSystemDrafts,
  ownSystemForm,
  RULE_STEPS,
  RULE_WANTS,
  toggleStep,
} from '#lib/job/own-form.ts';
import { project } from '#lib/job/project.ts';
import { proofOwed } from '#lib/job/proof.ts';
import { previewJob } from '#lib/job/preview.ts';
import { takeBack, type TakenBack } from '#lib/job/take-back.ts';
import { OwnRule, OwnSystem } from '#lib/record/kinds/setup.ts';
import type { OwnRuleForm, OwnSystemForm } from '#lib/record/setup-drafts.ts';
import { expect, test } from 'vitest';
import { chain, type Said } from '../../fixtures/log.ts';

test('a system of the crew is its steps in the order touched', () => {
  const steps = (['scrape', 'liquid-coat', 'band-seams', 'liquid-coat'] as const).reduce<OwnSystemForm['steps']>(toggleStep, []);
  expect(steps).toEqual(['scrape', 'band-seams']);
  const drafts = ownSystemDrafts({ system: 'ours', name: ' Ours ', steps }, previewJob([]));
  expect(drafts).toEqual({ ok: true, value: [{ kind: 'own-system', data: { system: 'ours', name: 'Ours', steps } }] });
  expect(ownSystemForm(OwnSystem.parse(drafts.ok && drafts.value[0]!.data))).toEqual({ system: 'ours', name: 'Ours', steps });
});

test('a system needs a name of its own and a step', () => {
  const job = previewJob([{ kind: 'own-system', data: { system: 'ours', name: 'Ours', steps: ['scrape'] } }]);
  expect(ownSystemDrafts({ system: 'new', name: 'OURS', steps: [] }, job)).toEqual({
    ok: false,
    fault: [
      { field: 'name', code: 'same-name' },
      { field: 'steps', code: 'no-step' },
    ],
  });
  expect(ownSystemDrafts({ system: 'ours', name: 'Ours', steps: ['scrape'] }, job)).toMatchObject({ ok: true });
});

const RULE: OwnRuleForm = { ...emptyRule('r'), name: 'Collar, close', places: ['wall'], reason: 'It leaked once.' };

test('a rule of the crew is owed where it says, and comes back into its form', () => {
  const drafts = ownRuleDrafts(RULE);
  expect(drafts.ok && ownRuleForm(OwnRule.parse(drafts.value[0]!.data))).toEqual(RULE);
  const job = previewJob([
    { kind: 'surface', data: { surface: 'w', name: 'Wall', place: 'wall', system: 'sheet' } },
    { kind: 'surface', data: { surface: 'f', name: 'Floor', place: 'floor', system: 'sheet' } },
    ...(drafts.ok ? drafts.value : []),
  ]);
  const owed = proofOwed(job).flatMap(({ items }) => items.filter(({ rule }) => rule.id === 'own-r'));
  expect(owed.map(({ surface, rule }) => [surface.surface, rule.reason])).toEqual([['w', 'It leaked once.']]);
});

test('a rule needs a name and a place, and can ask nothing of a step without a layer or a measure nobody reads', () => {
  expect(ownRuleDrafts({ ...RULE, name: '', places: [], reason: 'x'.repeat(2_001) }).ok).toBe(false);
  expect(ownRuleDrafts({ ...RULE, name: '', places: [] })).toEqual({
    ok: false,
    fault: [
      { field: 'name', code: 'empty' },
      { field: 'places', code: 'no-place' },
    ],
  });
  expect(RULE_STEPS).not.toContain('repair');
  expect(RULE_WANTS).toContain('shot');
  expect(RULE_WANTS).not.toContain('recoat');
});

const SURFACE = { surface: 'w1', name: 'Wall', place: 'wall', system: 'own:ours', room: 'r1' };
const LOG: Said[] = [
  { kind: 'room', data: { room: 'r1', name: 'Hall' } },
  { kind: 'room', data: { room: 'r2', name: 'Main' } },
  { kind: 'own-system', data: { system: 'ours', name: 'Ours', steps: ['scrape'] } },
  { kind: 'surface', data: SURFACE },
  { kind: 'surface', data: { ...SURFACE, surface: 'w2', name: 'Left' } },
  { kind: 'surface', data: { ...SURFACE, surface: 'w2', name: 'Left wall' } },
  { kind: 'own-rule', data: { rule: 'x', step: 'scrape', want: 'shot', places: ['wall'], name: 'X', reason: '' } },
  { kind: 'own-rule', data: { rule: 'y', step: 'scrape', want: 'shot', places: ['wall'], name: 'Y', reason: '' } },
  { kind: 'limit', data: { limit: 'l1', what: 'overlap', min: '2', max: null, unit: 'in', source: { kind: 'crew', text: 'us' } } },
  { kind: 'reading', data: { what: 'overlap', surface: 'w1', said: { text: '2', value: '2', unit: 'in' }, how: 'tape' } },
  { kind: 'not-done', data: { step: 'scrape', surfaces: [], items: ['own-x:w1'], covered: false, reason: 'other', words: '' } },
];
const lines = (more: Said[] = []) => project(chain('a', [...LOG, ...more])).state.lines;

test.each<[kind: TakenBack, id: string, of: string[] | null]>([
  ['surface', 'w1', null],
  ['surface', 'w2', ['a-4', 'a-5']],
  ['room', 'r1', null],
  ['room', 'r2', ['a-1']],
  ['own-system', 'ours', null],
  ['own-rule', 'x', null],
  ['own-rule', 'y', ['a-7']],
  ['limit', 'l1', ['a-8']],
  ['limit', 'unknown', null],
])('%s %s is taken back only while nothing else speaks of it', (kind, id, of) => {
  expect(takeBack(lines(), kind, id)?.map(({ data }) => (data as { of: string }).of) ?? null).toEqual(of);
});

test('an amendment of its own does not hold it; one taken back is not taken back again', () => {
  const amended = { kind: 'amendment', refs: ['a-8'], data: { of: 'a-8', data: { limit: 'l1' }, why: '' } };
  expect(takeBack(lines([amended]), 'limit', 'l1')).toHaveLength(1);
  expect(takeBack(lines([{ kind: 'withdrawal', refs: ['a-8'], data: { of: 'a-8', why: '' } }]), 'limit', 'l1')).toBeNull();
});

test('what was taken back is gone from the job', () => {
  const back = takeBack(lines(), 'surface', 'w2')!;
  const { surfaces } = project(chain('a', [...LOG, ...back.map(({ kind, data }) => ({ kind, data }))])).state;
  expect(surfaces.map(({ surface }) => surface)).toEqual(['w1']);
});
