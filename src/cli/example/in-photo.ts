import type { Draft } from '#lib/record/kinds.ts';

/** The lap of the north wall again, by the scale card in its photo: what the page of measuring kept once Dara had confirmed it. */
export const LAP_IN_PHOTO: Draft = {
  id: 'reading-overlap-north-card',
  kind: 'reading',
  run: 'run-pre-cut',
  refs: ['photo-45'],
  data: {
    what: 'overlap',
    surface: 'north',
    said: { text: '2.66', value: '2.66', unit: 'in', resolution: '0.01' },
    how: 'photo',
    shot: 'photo-45',
    photo: {
      sha256: '98f5df58930d80844a3786d944dd12dee535f8c66d3a2a8f5142d78f69bdbb97',
      width: 1280,
      height: 960,
      method: '2026-11-26.4',
      mmPerPx: '0.2713',
      reference: {
        kind: 'card',
        barMm: '100',
        found: [['317.5', '547.18'], ['812.12', '485.55'], ['861.69', '817.81'], ['339.69', '879.3']], // prettier-ignore
      },
      from: ['637.6', '395.2'],
      to: ['630', '173.5'],
      low: '2.60',
      high: '2.73',
      plane: 'edges',
    },
    lap: 'both-edges',
    confirmed: 'person-dara',
  },
};
