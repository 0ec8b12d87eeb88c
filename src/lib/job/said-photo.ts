import type { Miss, PhotoArea, PhotoLength } from '../record/kinds/photo.ts';
import type { Unit } from '../record/kinds/reading.ts';
import { plain, type SaidValue } from './said-field.ts';

/** The interval, then what anyone needs to compute it again: method, points in pixels, and what it was measured by. */
export function photoLength({ low, high, method, mmPerPx, from, to, reference }: PhotoLength, unit: Unit): SaidValue[] {
  const by = reference.kind === 'card' ? `card ${reference.barMm} mm` : `rectangle ${reference.widthMm} x ${reference.heightMm} mm`;
  const tapped = reference.tapped === undefined ? '' : ` (${reference.tapped.map(pointText).join(' ')})`;
  const text = `${method}: ${pointText(from)} ${pointText(to)}; ${by}${tapped}, ${reference.found.map(pointText).join(' ')}; ${mmPerPx} mm/px`;
  return [
    { is: 'quantity', ...plain(low, unit), to: high },
    { is: 'tag', text },
  ];
}

export function photoArea({ method, corners, widthMm, heightMm, mmPerPx }: PhotoArea): SaidValue[] {
  return [{ is: 'tag', text: `${method}: ${widthMm} x ${heightMm} mm, ${corners.map(pointText).join(' ')}; ${mmPerPx} mm/px` }];
}

/** How many there are, and each with its place and size in mm and what the person made of it. */
export function misses(all: readonly Miss[]): SaidValue[] {
  const standing = all.filter(({ struck }) => struck !== true).length;
  const text = all.map(({ x, y, diameter, kind, added, struck }) =>
    [x, y, diameter ?? '?', kind, ...(added === true ? ['+'] : []), ...(struck === true ? ['-'] : [])].join(' '),
  );
  return [{ is: 'number', n: standing }, ...(all.length === 0 ? [] : [{ is: 'tag', text: text.join('; ') } as const])];
}

export function pointText([x, y]: readonly [string, string]): string {
  return `(${x}, ${y})`;
}
