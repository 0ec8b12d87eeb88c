import { baseOf } from '../measure/dimension.ts';
import { SCHEMAS, type DataOf, type Draft } from '../record/kinds.ts';
import type { Quantity } from '../record/kinds/reading.ts';
import { fail, ok, type Result } from '../result.ts';
import { LINER_TEST } from '../trade/sources.ts';
import { listOf, typedAmount, type FormFault, type Typed } from './form-drafts.ts';
import type { Attempt } from './flood.ts';
import { MEASURE_KINDS } from './measures.ts';

export type Profile = DataOf<'flood-fill'>['profile'];
const shape = SCHEMAS['flood-fill'].shape;
export const PROFILES: readonly Profile[] = shape.profile.options;
export const PLUGS = shape.plug.options;
export const CEILINGS = shape.ceiling.options;
/** What is prepared before the water, each answered yes or no: a no is written down, not refused. */
export const PREPARED = ['line', 'dam', 'soaked', 'sign', 'pan'] as const;

/** Rulers, by their smallest graduation. */
export const RULERS: readonly Quantity[] = [
  { text: '1/16', value: '0.0625', unit: 'in' },
  { text: '1', value: '1', unit: 'mm' },
  { text: '0.5', value: '0.5', unit: 'mm' },
];

const LOSS = { in: 'in', mm: 'mm', largest: ['100', 'mm'] } as const;
const DEPTH = MEASURE_KINDS['flood-depth'];

/** A plan as far as it is typed: what its rule says, and what the person does. Null where it is not said, or not yet readable. */
export interface Plan {
  readonly profile: Profile | null;
  readonly holdMs: number;
  readonly depth: Quantity | null;
  /** The deepest point, at the drain, where somebody measured or reckoned it; for the load alone. */
  readonly deepest: Quantity | null;
  readonly maxLoss: Quantity | null;
  readonly ruler: Quantity | null;
  readonly pan: boolean;
  readonly under: readonly string[];
}

export function planOf(typed: Typed, units: 'in' | 'mm'): Plan {
  const profile = PROFILES.find((one) => one === typed['profile']) ?? null;
  const said = (name: string, of: Parameters<typeof typedAmount>[1]) => {
    const read = typedAmount(textOf(typed, name), of, of[units]);
    return read.ok ? read.value : null;
  };
  return {
    profile,
    holdMs: profile === 'ipc-312.9' ? LINER_TEST.holdMin * 60_000 : msOf(said('hold', MEASURE_KINDS['flood-hold'])),
    // In inches, in which the rule is written.
    depth:
      profile === 'ipc-312.9'
        ? { text: LINER_TEST.depthIn, value: LINER_TEST.depthIn, unit: 'in' }
        : profile === 'contract'
          ? said('depth', DEPTH)
          : null,
    deepest: said('deepest', DEPTH),
    maxLoss: said('maxLoss', LOSS),
    ruler: RULERS.find(({ value }) => value === typed['ruler']) ?? null,
    pan: typed['pan'] === 'yes',
    under: listOf(typed['under']),
  };
}

/** The fill that a plan says, or every field that stands in the way. Only the contract and the ruler are asked for beyond what the rules say. */
export function fillDraft(typed: Typed, units: 'in' | 'mm'): Result<Draft & { kind: 'flood-fill' }, FormFault[]> {
  const plan = planOf(typed, units);
  const faults: FormFault[] = [];
  const needed = plan.profile === 'contract';
  const amount = (name: 'hold' | 'depth' | 'maxLoss' | 'deepest', of: Parameters<typeof typedAmount>[1], asked: boolean) => {
    const text = textOf(typed, name);
    if (text === '') return asked ? void faults.push({ field: name, code: 'empty' }) : undefined;
    const read = typedAmount(text, of, of[units]);
    if (!read.ok) faults.push({ field: name, code: read.fault });
  };
  const one = <Code extends string>(name: string, codes: readonly Code[]): Code => {
    const code = codes.find((code) => code === typed[name]);
    if (code === undefined) faults.push({ field: name, code: 'not-chosen' });
    return code ?? codes[0]!;
  };
  const yes = (name: (typeof PREPARED)[number]) => {
    if (typed[name] !== 'yes' && typed[name] !== 'no') faults.push({ field: name, code: 'not-answered' });
    return typed[name] === 'yes';
  };
  const profile = one('profile', PROFILES);
  if (profile !== 'ipc-312.9') amount('hold', MEASURE_KINDS['flood-hold'], needed);
  if (needed) amount('depth', DEPTH, true);
  amount('deepest', DEPTH, false);
  if (plan.under.length === 0) faults.push({ field: 'under', code: 'no-surface' });
  const plug = one('plug', PLUGS);
  const ceiling = one('ceiling', CEILINGS);
  const [line, dam, soaked, sign, pan] = PREPARED.map(yes) as [boolean, boolean, boolean, boolean, boolean];
  if (plan.ruler === null) faults.push({ field: 'ruler', code: 'not-chosen' });
  amount('maxLoss', LOSS, false);
  const above = textOf(typed, 'above').toWellFormed();
  if (above.length > 2_000) faults.push({ field: 'above', code: 'too-long' });
  if (faults.length > 0 || plan.ruler === null) return fail(faults);
  const holdMin = String(Number((plan.holdMs / 60_000).toFixed(3)));
  const more = { ruler: plan.ruler, ...(plan.maxLoss === null ? {} : { maxLoss: plan.maxLoss }) };
  return ok({
    kind: 'flood-fill',
    data: { profile, holdMin, depth: plan.depth, under: [...plan.under], above, plug, line, ceiling, dam, soaked, sign, pan, ...more },
  });
}

/** A new attempt as it first stands: after an earlier one the same plan, but nothing that must be looked at or done anew. */
export function firstFill(before: Attempt | null, units: 'in' | 'mm'): Typed {
  if (before === null) return {};
  const { profile, depth, holdMin, under, above, plug, ruler, maxLoss } = before.fill.data;
  const inUnits = (said: Quantity | null | undefined, of: { readonly in: string; readonly mm: string }) =>
    said !== null && said !== undefined && said.unit === of[units] ? said.value : '';
  const hours = Number(holdMin) / 60;
  return {
    profile,
    depth: inUnits(depth, DEPTH),
    hold: hours === 0 ? '' : String(Number(hours.toFixed(4))),
    maxLoss: inUnits(maxLoss, LOSS),
    ruler: ruler?.value ?? '',
    under,
    above,
    plug,
  };
}

function textOf(typed: Typed, name: string): string {
  const text = typed[name];
  return typeof text === 'string' ? text.trim() : '';
}

function msOf(hold: Quantity | null): number {
  const ms = hold === null ? null : baseOf(hold.value, hold.unit);
  return ms?.ok === true ? ms.value : 0;
}
