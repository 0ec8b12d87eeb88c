type Distance = 'wide' | 'mid' | 'close';

/** The same place from one step closer, or one step back. */
export interface NextOfPlace {
  readonly step: 'closer' | 'back';
  readonly distance: Distance;
}

/**
 * The photo to offer after one, so that the place is seen wide and close: from wide inwards, from close outwards. `before` is the
 * distance of the photo it was paired with; a chain that has reached its end offers nothing.
 */
export function nextOfPlace(last: Distance | null, before: Distance | null): NextOfPlace | null {
  if (last === 'mid') return before === 'close' ? { step: 'back', distance: 'wide' } : { step: 'closer', distance: 'close' };
  if (last === null || before !== null) return null;
  return { step: last === 'wide' ? 'closer' : 'back', distance: 'mid' };
}
