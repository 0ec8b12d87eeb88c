import { inUnit } from '../measure/dimension.ts';
import * as m from '../words/compiled/messages.js';
import type { BarLook, Block, Tick } from './blocks.ts';
import type { RecordAttempt, RecordDocument, RecordLimit, RecordReading } from './record-document.ts';
import { sentence, type Speaker } from './speaker.ts';

/** Readings held to one limit, from two on: one alone says as much in the table. */
export function readingPlots(readings: readonly RecordReading[], say: Speaker): Block[] {
  const groups = Map.groupBy(readings, (reading) => reading.limit);
  return [...groups].flatMap(([id, group]) => {
    const limit = say.limit(id);
    return limit === null || group.length < 2 ? [] : [readingPlot(limit, group, say)];
  });
}

const LOOK: Readonly<Record<RecordReading['verdict'], BarLook>> = {
  within: 'solid',
  outside: 'crossed',
  'not-proven': 'hollow',
  'no-limit': 'light',
};

function readingPlot(limit: RecordLimit, readings: readonly RecordReading[], say: Speaker): Block {
  const { locale } = say;
  const { unit } = limit;
  const at = (value: string, from: typeof unit) => {
    const size = inUnit(value, from, unit);
    if (!size.ok) throw new RangeError(`${value} ${from}: ${size.fault.code}`);
    return size.value;
  };
  const limits = [limit.min, limit.max].flatMap((bound) => (bound === null ? [] : [at(bound, unit)]));
  const rows = readings.map((reading) => ({
    label: [say.surface(reading.surface), ...(reading.spot === null ? [] : [reading.spot]), ...coatText(reading, say)].join(', '),
    from: at(reading.said.value, reading.said.unit),
    to: at(reading.said.to ?? reading.said.value, reading.said.unit),
    look: LOOK[reading.verdict],
  }));
  const all = [...limits, ...rows.flatMap(({ from, to }) => [from, to])];
  const ticks = ticksOver(all, unit === 'in' ? INCH_STEPS : []).map((tick): Tick => ({
    at: tick,
    label: say.quantity({ value: decimal(tick), to: null, unit }),
  }));
  const said = readings.map((reading) => `${say.surface(reading.surface)} ${say.value(reading)}, ${say.verdict(reading.verdict)}`);
  return {
    block: 'plot',
    alt: m.record_plot_alt({ what: say.measure(limit.what), limit: say.bounds(limit), readings: said.join('; ') }, { locale }),
    caption: [
      sentence(m.record_plot_caption({ what: say.measure(limit.what), limit: say.bounds(limit), source: say.source(limit) }, { locale })),
      m.record_plot_key({}, { locale }),
    ].join(' '),
    ticks,
    limits,
    rows,
  };
}

function coatText({ coat }: RecordReading, { locale }: Speaker): string[] {
  return coat === null ? [] : [m.record_coat({ coat }, { locale })];
}

/** Steps a tape is read in. */
const INCH_STEPS: readonly number[] = [0.0625, 0.125, 0.25, 0.5, 1, 2, 5];
const MOST_TICKS = 6;

/** Round numbers from just below the least to just above the greatest of `all`, some six of them: of `steps`, else 1, 2 and 5 times a power of ten. */
export function ticksOver(all: readonly number[], steps: readonly number[]): number[] {
  const [least, most] = [Math.min(...all), Math.max(...all)];
  const rough = Math.max((most - least) / MOST_TICKS, Math.abs(most) * 1e-6, 1e-9);
  const power = 10 ** Math.floor(Math.log10(rough));
  const step = steps.find((one) => one >= rough) ?? [1, 2, 5, 10].map((digit) => digit * power).find((one) => one >= rough * (1 - 1e-9))!;
  const from = Math.floor(least / step + 1e-9);
  const to = Math.max(from + 1, Math.ceil(most / step - 1e-9));
  return Array.from({ length: to - from + 1 }, (_, i) => (from + i) * step);
}

/** A tick as a decimal string, without the noise of binary fractions. */
function decimal(value: number): string {
  return String(Number(value.toFixed(6)));
}

const HOUR_MS = 3_600_000;
const HOUR_STEPS: readonly number[] = [0.25, 0.5, 1, 2, 4, 6, 12, 24, 48];

/** How far the water fell, at each mark and in the control pan, from the first reading of each; nothing where no mark was read twice. */
export function levelPlot(attempt: RecordAttempt, { readings, job }: RecordDocument, say: Speaker): Block[] {
  const { locale } = say;
  const unit = job.units;
  const read = (ids: readonly string[]) => readings.filter(({ id }) => ids.includes(id));
  const groups = [
    ...Map.groupBy(read(attempt.test), ({ spot }) => spot ?? ''),
    ...(attempt.control.length === 0 ? [] : [[null, read(attempt.control)] as const]),
  ];
  const begun = Date.parse(attempt.at.utc);
  const series = groups.flatMap(([spot, levels]) => {
    if (levels.length < 2) return [];
    const name = spot === null ? m.flood_plot_control({}, { locale }) : spot || m.flood_plot_pan({}, { locale });
    const first = sizeIn(levels[0]!.said, unit);
    const points = levels.map(({ said, at }) => ({
      x: (Date.parse(at.utc) - begun) / HOUR_MS,
      y: first - sizeIn(said, unit),
      take: said.resolution === null ? 0 : sizeIn({ value: said.resolution, unit: said.unit }, unit) / 2,
    }));
    return [{ name, look: spot === null ? ('ring' as const) : ('square' as const), points }];
  });
  const test = series.filter(({ look }) => look === 'square');
  const hours = series.flatMap(({ points }) => points.map(({ x }) => x));
  // A clock that was moved by years is no time axis.
  if (test.length === 0 || Math.max(...hours) - Math.min(...hours) > 24 * 60) return [];
  const maxLoss = say.line(attempt.id)?.said.find(({ field }) => field === 'maxLoss');
  const limit = maxLoss?.is === 'quantity' ? sizeIn(maxLoss, unit) : null;
  const falls = series.flatMap(({ points }) => points.flatMap(({ y, take }) => [y - take, y + take]));
  const height = (value: number) => say.quantity({ value: String(Number(value.toFixed(unit === 'in' ? 3 : 1))), to: null, unit });
  const said = series.flatMap(({ name, points }) => points.map(({ x, y }) => `${name} ${clock(x, say)} ${height(y)}`));
  return [
    {
      block: 'curve',
      alt: m.flood_plot_text({ points: said.join('; ') }, { locale }),
      caption: [
        m.record_curve_caption({}, { locale }),
        ...(limit === null ? [] : [m.record_curve_limit({ limit: height(limit) }, { locale })]),
      ].join(' '),
      across: ticksOver([0, ...hours], HOUR_STEPS).map((at) => ({ at, label: clock(at, say) })),
      down: ticksOver([0, ...falls, ...(limit === null ? [] : [limit])], unit === 'in' ? INCH_STEPS : []).map((at) => ({
        at,
        label: height(at),
      })),
      limit,
      series,
    },
  ];
}

function clock(hours: number, say: Speaker): string {
  return say.length(Math.round(hours * HOUR_MS));
}

/** A length in the job's unit, as a number to draw with. */
function sizeIn({ value, unit }: Pick<RecordReading['said'], 'value' | 'unit'>, to: 'in' | 'mm'): number {
  const size = inUnit(value, unit, to);
  return size.ok ? size.value : 0;
}
