// The general mixed-integer solver, on the same questions. It knows nothing of strips: each question is put to it as a model in the LP format.
import loadHighs, { type Highs } from 'highs';
import { toNumber, type BruteStrips } from './plan-brute.ts';

let loaded: Promise<Highs> | undefined;

export async function solver(): Promise<Highs> {
  return (loaded ??= loadHighs());
}

interface Model {
  readonly rows: string[];
  readonly binaries: string[];
  readonly free: string[];
}

/** The least value of an objective, or null where the model has no solution. */
function least(
  highs: Highs,
  objective: string,
  { rows, binaries, free }: Model,
): { value: number; columns: Record<string, number> } | null {
  const text = [
    'Minimize',
    ` obj: ${objective}`,
    'Subject To',
    ...rows.map((row, i) => ` r${i}: ${row}`),
    'Bounds',
    ...free.map((name) => ` ${name} free`),
    'Binaries',
    ...binaries.map((name) => ` ${name}`),
    'End',
  ].join('\n');
  const { Status, ObjectiveValue, Columns } = highs.solve(text, { mip_rel_gap: 0, mip_abs_gap: 1e-9, mip_feasibility_tolerance: 1e-9 });
  if (Status !== 'Optimal') return null;
  return {
    value: ObjectiveValue,
    columns: Object.fromEntries(Object.entries(Columns).map(([name, column]) => [name, (column as { Primal: number }).Primal])),
  };
}

/** A sum in the LP format, in lines short enough for it. */
function sum(terms: readonly (readonly [number, string])[]): string {
  const all = terms.filter(([n]) => n !== 0).map(([n, name]) => `${n < 0 ? '-' : '+'} ${Math.abs(n)} ${name}`);
  return all.length === 0 ? '0 zero' : all.join('\n  ');
}

export interface SolvedStrips {
  readonly pieces: number;
  readonly cut: number;
  readonly notched: number;
  readonly seam: number;
  readonly overlap: number;
}

/** The best plan of strips in one direction by the first five aims: a way through the bands, each aim held while the next is sought. */
export function solveStrips(highs: Highs, strips: BruteStrips): SolvedStrips | null {
  const bands = strips.multiples.filter((m) => strips.band(m) !== null);
  const name = (kind: string, ...ms: number[]) => `${kind}${ms.map((m) => `_${m < 0 ? 'n' : ''}${Math.abs(m)}`).join('')}`;
  const steps = bands.flatMap((m) =>
    bands.flatMap((next) => {
      const seam = next > m ? strips.seam(m, next) : null;
      return seam === null ? [] : [{ m, next, seam: toNumber(seam), overlap: strips.overlap(m, next), name: name('x', m, next) }];
    }),
  );
  const starts = bands.filter((m) => strips.canStart(m));
  const ends = bands.filter((m) => strips.canEnd(m));
  if (starts.length === 0 || ends.length === 0) return null;
  const into = (m: number): [number, string][] => [
    ...(starts.includes(m) ? [[1, name('s', m)] as [number, string]] : []),
    ...steps.filter((step) => step.next === m).map((step): [number, string] => [1, step.name]),
  ];
  const outOf = (m: number): [number, string][] => [
    ...(ends.includes(m) ? [[-1, name('e', m)] as [number, string]] : []),
    ...steps.filter((step) => step.m === m).map((step): [number, string] => [-1, step.name]),
  ];
  const model: Model = {
    rows: [
      `${sum(starts.map((m) => [1, name('s', m)]))} = 1`,
      ...bands
        .map((m) => ({ m, terms: [...into(m), ...outOf(m)] }))
        .filter(({ terms }) => terms.length > 0)
        .map(({ terms }) => `${sum(terms)} = 0`),
    ],
    binaries: [...starts.map((m) => name('s', m)), ...ends.map((m) => name('e', m)), ...steps.map((step) => step.name)],
    free: ['zero'],
  };
  model.rows.push('zero = 0');
  const perBand = (cost: (m: number) => number) =>
    sum(bands.flatMap((m) => into(m).map(([, column]): [number, string] => [cost(m), column])));
  const aims: [keyof SolvedStrips, string][] = [
    ['pieces', perBand((m) => strips.band(m)!.pieces)],
    ['cut', perBand((m) => strips.band(m)!.cut)],
    ['notched', perBand((m) => strips.band(m)!.notched)],
    ['seam', sum(steps.map((step) => [step.seam, step.name]))],
  ];
  const found: Partial<Record<keyof SolvedStrips, number>> = {};
  for (const [aim, objective] of aims) {
    const best = least(highs, objective, model);
    if (best === null) return null;
    found[aim] = best.value;
    model.rows.push(`${objective} <= ${(best.value + 1e-6).toFixed(7)}`);
  }
  const far = 1000;
  for (const step of steps) model.rows.push(`narrowest + ${far} ${step.name} <= ${far + step.overlap}`);
  model.rows.push(`narrowest <= ${far}`);
  model.free.push('narrowest');
  const widest = least(highs, '- narrowest', model);
  return { ...(found as SolvedStrips), overlap: widest === null ? NaN : -widest.value };
}

/** Fewest new rolls, then the longest remainder. Null where the cuts fit on no choice of rolls. */
export function solvePacking(
  highs: Highs,
  cuts: readonly number[],
  atHand: readonly number[],
  newLength: number | null,
): { opened: number; longest: number } | null {
  const rolls = [...atHand, ...(newLength === null ? [] : cuts.map(() => newLength))];
  const isNew = (j: number) => j >= atHand.length;
  const cells = (j: number): [number, string][] => cuts.map((cut, i) => [cut, `x_${i}_${j}`]);
  const model: Model = {
    rows: [
      ...cuts.map((_, i) => `${sum(rolls.map((__, j) => [1, `x_${i}_${j}`]))} = 1`),
      ...rolls.map((length, j) => (isNew(j) ? `${sum(cells(j))} - ${length} y_${j} <= 0` : `${sum(cells(j))} <= ${length}`)),
      ...rolls.flatMap((_, j) => (isNew(j) && isNew(j - 1) && j > 0 ? [`y_${j} - y_${j - 1} <= 0`] : [])),
      'zero = 0',
    ],
    binaries: [...rolls.flatMap((_, j) => [...cuts.map((__, i) => `x_${i}_${j}`), ...(isNew(j) ? [`y_${j}`] : [])])],
    free: ['zero'],
  };
  const opened = sum(rolls.flatMap((_, j): [number, string][] => (isNew(j) ? [[1, `y_${j}`]] : [])));
  const fewest = least(highs, opened, model);
  if (fewest === null) return null;
  model.rows.push(`${opened} <= ${Math.round(fewest.value)}`, `${sum(rolls.map((_, j) => [1, `z_${j}`]))} = 1`);
  const far = Math.max(...rolls) + cuts.reduce((a, b) => a + b, 0);
  rolls.forEach((length, j) => {
    model.rows.push(
      `longest + ${sum(cells(j))} + ${far} z_${j} <= ${length + far}`,
      `z_${j} ${sum(cuts.map((_, i) => [-1, `x_${i}_${j}`]))} <= 0`,
    );
    model.binaries.push(`z_${j}`);
  });
  const best = least(highs, '- longest', model);
  return best === null ? null : { opened: Math.round(fewest.value), longest: -best.value };
}
