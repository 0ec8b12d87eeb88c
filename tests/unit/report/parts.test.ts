import { writeFileSync, mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { afterAll, describe, expect, it, vi } from 'vitest';
import type { Edition } from '#lib/report/blocks.ts';
import { buildRecord } from '#lib/report/build.ts';
import { layOut } from '#lib/report/layout.ts';
import { photoGroups } from '#lib/report/photo-order.ts';
import type { RecordShot } from '#lib/report/record-document.ts';
import type { Measure } from '#lib/report/text.ts';
import { wordRecord } from '#lib/report/word.ts';
import { ticksOver } from '#lib/report/word-plots.ts';
import { bytesOf, recordOf } from './job-fixture.ts';
import { tool } from './tool.ts';
import { wholeLog } from './whole-job.ts';

vi.setConfig({ testTimeout: 60_000 });

const folder = mkdtempSync(path.join(tmpdir(), 'parts-'));
afterAll(() => rmSync(folder, { recursive: true }));

const shot = (id: string, step: RecordShot['step'], more: Partial<RecordShot> = {}) =>
  ({ id, step, distance: null, pair: null, ...more }) as RecordShot;

describe('numbers of photos', () => {
  it.each([
    { title: 'by layer, whatever the order of the log', shots: [shot('b', 'bond-sheets'), shot('a', 'survey')], groups: ['a', 'b'] },
    {
      title: 'near and far of one place under one number, far first, before photos by themselves',
      shots: [shot('x', 'scrape'), shot('near', 'scrape', { distance: 'close', pair: 'far' }), shot('far', 'scrape', { distance: 'wide' })],
      groups: ['far near', 'x'],
    },
    {
      title: 'a chain of three, whichever names which',
      shots: [
        shot('c', 'scrape', { distance: 'close', pair: 'm' }),
        shot('w', 'scrape', { distance: 'wide', pair: 'm' }),
        shot('m', 'scrape', { distance: 'mid' }),
      ],
      groups: ['w m c'],
    },
    { title: 'one whose pair is not in the log by itself', shots: [shot('a', 'scrape', { pair: 'gone' })], groups: ['a'] },
    {
      title: 'repairs and what lies in the tray last',
      shots: [shot('r', 'repair'), shot('t', null), shot('c', 'check')],
      groups: ['c', 'r', 't'],
    },
    {
      title: 'at most four side by side',
      shots: ['a', 'b', 'c', 'd', 'e'].map((id) => shot(id, 'scrape', { pair: id === 'a' ? null : 'a' })),
      groups: ['a b c d', 'e'],
    },
  ])('$title', ({ shots, groups }) => {
    const found = photoGroups(shots);
    expect(found.map((group) => group.shots.map(({ id }) => id).join(' '))).toEqual(groups);
    expect(found.map(({ number }) => number)).toEqual(groups.map((_, i) => i + 1));
  });
});

describe('ticks of an axis', () => {
  it.each([
    [
      [2, 2.6875],
      [0.0625, 0.125, 0.25, 0.5, 1],
      [2, 2.125, 2.25, 2.375, 2.5, 2.625, 2.75],
    ],
    [[24, 40], [], [20, 25, 30, 35, 40]],
    [[5, 5], [], [5, 5.000001]],
    [[0, 0], [1], [0, 1]],
    [
      [-0.3, 0.9],
      [0.25, 0.5],
      [-0.5, -0.25, 0, 0.25, 0.5, 0.75, 1],
    ],
  ] as const)('over %j', (all, steps, ticks) => {
    const found = ticksOver(all, steps);
    expect(found.length).toBe(ticks.length);
    found.forEach((tick, i) => expect(tick).toBeCloseTo(ticks[i]!, 5));
  });
});

const entries = await wholeLog();
const both = await buildRecord(recordOf(entries, new Map(), { locale: 'both' }));
const { document } = both;
const pdf = await bytesOf(both);
const file = path.join(folder, 'both.pdf');
writeFileSync(file, pdf);
const pages = tool('pdftotext', '-layout', file, '-').split('\f');

describe('the contents', () => {
  const measure: Measure = (text, _face, size) => (text.length * size) / 2;
  const worded = wordRecord(document, ['en', 'es']);
  const laid = layOut(worded, 'letter', new Map(), measure);
  const placed = laid.pages.flatMap(({ headings }, i) => headings.map((heading) => ({ ...heading, page: i + 1 })));

  it.each(worded.editions.map((edition) => [edition.lang, edition] as const))(
    'name every heading with its page, in %s',
    (_, edition: Edition) => {
      const inside = new Set<object>([...edition.parts, ...edition.parts.flatMap(({ blocks }) => blocks)]);
      const contents = edition.parts.find(({ blocks }) => blocks.some(({ block }) => block === 'contents'))!;
      const wanted = placed.filter(({ of }) => inside.has(of) && of !== contents);
      expect(wanted.length).toBeGreaterThan(30);
      const lines = laid.pages.flatMap(({ ops }) => ops.flatMap((op) => (op.op === 'text' && op.tag?.type === 'TOCI' ? [op] : [])));
      const said = lines.flatMap((op, i) => (i % 2 === 0 ? [`${op.text} ${lines[i + 1]!.text}`] : []));
      expect(wanted.filter(({ text, page }) => !said.includes(`${text} ${page}`))).toEqual([]);
    },
  );

  it('and bookmarks lead to the pages where the headings stand', () => {
    const outline = JSON.parse(tool('qpdf', '--json', '--json-key=outlines', '--json-key=pages', file)) as {
      outlines: { title: string; destpageposfrom1: number; kids: { title: string; destpageposfrom1: number }[] }[];
    };
    expect(outline.outlines.map(({ title }) => title)).toEqual(worded.editions.flatMap(({ parts }) => parts.map(({ name }) => name)));
    const marks = outline.outlines.flatMap(({ kids, ...own }) => [own, ...kids]);
    expect(marks.length).toBe(placed.length);
    const bare = (text: string) => text.replaceAll(/\s/g, '');
    expect(marks.filter(({ title, destpageposfrom1 }) => !bare(pages[destpageposfrom1 - 1]!).includes(bare(title)))).toEqual([]);
  });
});

it('says all of it in one language, then in the other, each marked as what it is', () => {
  const raw = Buffer.from(pdf).toString('latin1');
  expect(raw).toMatch(/\/S \/Sect\s+\/Lang \(es\)|\/Lang \(es\)/);
  const all = pages.join('');
  expect(all.indexOf('Registro de impermeabilización')).toBeGreaterThan(all.indexOf('Waterproofing record'));
});

it('keeps an address back where it is to be left out: from cover, facts, log and attachment', async () => {
  const without = await buildRecord(recordOf(entries, new Map(), { left: ['address'] }));
  expect(JSON.stringify(without.document)).not.toContain('9 Quarry Steps');
  expect(JSON.stringify(document)).toContain('9 Quarry Steps');
  const kept = path.join(folder, 'left.pdf');
  const bytes = await bytesOf(without);
  writeFileSync(kept, bytes);
  expect(tool('pdftotext', '-raw', kept, '-')).not.toContain('Quarry');
  expect(tool('pdfdetach', '-list', kept)).toContain('0 embedded files');
  expect(Buffer.from(bytes).includes('9 Quarry Steps')).toBe(false);
});
