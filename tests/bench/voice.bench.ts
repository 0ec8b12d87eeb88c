import { fileURLToPath } from 'node:url';
import { statSync, readdirSync } from 'node:fs';
import { gzipSync } from 'node:zlib';
import { readFileSync } from 'node:fs';
import { Listener } from '#lib/work/listener.ts';
import { clip } from '../speech/clips.ts';
import { phrases } from '../speech/phrases.ts';
import { random } from '../sim/random.ts';
import type { BenchRow } from './keep.bench.ts';

const VOICE = fileURLToPath(new URL('../../static/voice', import.meta.url));
const PHRASES = 18;
/** As fast as it is spoken. */
const REAL_TIME = 1;

/** Time of the processor, ms: what the work takes on a core of its own, whatever else runs. */
function busyMs(since: NodeJS.CpuUsage): number {
  const { user, system } = process.cpuUsage(since);
  return (user + system) / 1000;
}

/** What a spoken value costs in Node: from release to read-back, beside the length of the clip; what is loaded, and the memory it takes. */
export async function run(): Promise<BenchRow[]> {
  const before = process.memoryUsage().rss;
  const from = process.cpuUsage();
  const listener = await Listener.open(`${VOICE}/en-us`);
  const openedMs = busyMs(from);
  const clips = phrases(PHRASES, random(5)).map(({ text, question }, i) => ({
    question,
    samples: clip(text, 'slt', { noise: 'fan', snrDb: 20 }, i),
  }));
  const times = clips.map(({ samples, question }) => {
    const begun = process.cpuUsage();
    listener.hear(samples, question);
    return { ms: busyMs(begun), seconds: samples.length / 16_000 };
  });
  const ms = times.map((one) => one.ms).sort((a, b) => a - b);
  const factor = times.reduce((sum, one) => sum + one.ms, 0) / 1000 / times.reduce((sum, one) => sum + one.seconds, 0);
  const files = readdirSync(`${VOICE}/en-us`).map((name) => `${VOICE}/en-us/${name}`);
  const all = [...files, `${VOICE}/soundswallower.web.wasm`];
  const raw = all.reduce((sum, file) => sum + statSync(file).size, 0) / 1e6;
  const packed = all.reduce((sum, file) => sum + gzipSync(readFileSync(file)).length, 0) / 1e6;
  const row = (name: string, ref: number, ours: number, unit: string, spread: string, aim: string): BenchRow => ({
    name,
    ref: Number(ref.toFixed(2)),
    ours: Number(ours.toFixed(2)),
    unit,
    ratio: Number((ours / ref).toFixed(2)),
    spread,
    aim,
  });
  return [
    row('spoken value, heard twice, to its own length', REAL_TIME, factor, 's/s', 'none', 'under 1'),
    row(
      'spoken value: release to read-back, median',
      1000,
      ms[Math.floor(ms.length / 2)]!,
      'ms',
      `${Math.round(ms[0]!)}-${Math.round(ms.at(-1)!)}`,
      'under 1 s',
    ),
    row('recogniser: read and ready', 3000, openedMs, 'ms', 'none', 'while the first phrase is spoken'),
    row(
      'recogniser: memory of the process more than before',
      200,
      (process.memoryUsage().rss - before) / 1e6,
      'MB',
      'none',
      'under 200 MB',
    ),
    row('recogniser: bytes loaded at first use (ref as stored, ours gzip)', raw, packed, 'MB', 'none', 'none before first use'),
  ];
}
