/** The colour a state is set in; `quiet` for what is neither good nor bad. */
export type Tone = 'within' | 'outside' | 'act' | 'wait' | 'deviate' | 'quiet';

interface GlyphShape {
  readonly tone: Tone;
  readonly line?: string;
  readonly pen?: number;
  readonly dash?: string;
  readonly fill?: string;
  /** Lines struck through the fill in the colour of the ground. */
  readonly cut?: string;
}

/**
 * States on a 16 grid, each a shape of its own so that it reads without colour: a disc against limit lines for a value,
 * a box for a layer, a strip for a wait, a level mark for a flood test.
 */
export const GLYPH_SHAPES = {
  within: { tone: 'within', line: 'M1.2 1v14M14.8 1v14', fill: 'M3.6 8a4.4 4.4 0 1 0 8.8 0a4.4 4.4 0 1 0-8.8 0z' },
  outside: { tone: 'outside', line: 'M3 1v14', fill: 'M6 3.5h9.4v9H6z' },
  'not-proven': { tone: 'quiet', line: 'M2.4 8a5.6 5.6 0 1 0 11.2 0a5.6 5.6 0 1 0-11.2 0zM8 0v16', fill: 'M8 2.4a5.6 5.6 0 0 1 0 11.2z' },
  'no-limit': { tone: 'quiet', fill: 'M3.6 8a4.4 4.4 0 1 0 8.8 0a4.4 4.4 0 1 0-8.8 0z' },
  owed: { tone: 'act', line: 'M1.5 2.5h13v11h-13z', pen: 1.8, dash: '3.2 2.2' },
  shown: { tone: 'within', fill: 'M1 2h14v12H1z', cut: 'M4.5 14L10.5 2M8.5 14L14.5 2' },
  'not-begun': { tone: 'quiet', line: 'M1.5 2.5h13v11h-13z', pen: 1.3 },
  'not-done': { tone: 'quiet', line: 'M2 8h12', pen: 2.4 },
  saved: { tone: 'within', line: 'M1 14.6h14', pen: 1.8, fill: 'M3 2.5h10v9.4H3z' },
  'flood-open': { tone: 'within', line: 'M2 2.2h12L8 10.6zM1 13.6h14' },
  'flood-passed': { tone: 'within', line: 'M1 13.6h14', pen: 1.8, fill: 'M1.5 2h13L8 11z' },
  'flood-failed': { tone: 'outside', line: 'M1.5 5.5h13L8 14.5zM1 2h14M1 9.4h14' },
  wait: { tone: 'wait', line: 'M.8 4h14.4v8H.8z', fill: 'M.8 4h8v8h-8z' },
  ready: { tone: 'within', line: 'M.8 4h14.4v8H.8zM8 0v3M8 13v3', fill: 'M.8 4h14.4v8H.8z' },
  running: { tone: 'act', line: 'M2 1v14', pen: 1.8, fill: 'M5 3l9.5 5L5 13z' },
  deviate: { tone: 'deviate', line: 'M2 2h12v12H2zM2 14L14 2' },
  void: { tone: 'quiet', line: 'M2 8a6 6 0 1 0 12 0a6 6 0 1 0-12 0zM3 13L13 3' },
} as const satisfies Record<string, GlyphShape>;

export type GlyphState = keyof typeof GLYPH_SHAPES;

export function glyphShape(state: GlyphState): GlyphShape {
  return GLYPH_SHAPES[state];
}
