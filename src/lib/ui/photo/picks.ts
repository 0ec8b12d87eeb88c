/** A list with one more, or one less where it was in it. */
export function toggled(list: readonly string[], one: string): readonly string[] {
  return list.includes(one) ? list.filter((other) => other !== one) : [...list, one];
}

/**
 * The surfaces picked after a touch on one. What is touched between two photos belongs together; the first touch after a photo begins
 * anew, so that no photo is said to show the surface of the one before. A touch on a picked one lets it go.
 */
export function pickedSurfaces(list: readonly string[], one: string, sincePhoto: boolean): readonly string[] {
  return sincePhoto || list.includes(one) ? toggled(list, one) : [one];
}
