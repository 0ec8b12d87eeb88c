import * as m from './compiled/messages.js';

const REFUSED = {
  'no-card': m.photo_refused_no_card,
  'card-cut-off': m.photo_refused_card_cut_off,
  'not-a-rectangle': m.photo_refused_not_a_rectangle,
  blurred: m.photo_refused_blurred,
  'edges-unclear': m.photo_refused_edges_unclear,
  'not-flat': m.photo_refused_not_flat,
  'not-in-plane': m.photo_refused_not_in_plane,
  'too-steep': m.photo_refused_too_steep,
  'too-far': m.photo_refused_too_far,
  'far-from-card': m.photo_refused_far_from_card,
  'outside-picture': m.photo_refused_outside_picture,
  'too-uncertain': m.photo_refused_too_uncertain,
  'no-film': m.photo_refused_no_film,
  'no-bare': m.photo_refused_no_bare,
  'low-contrast': m.photo_refused_low_contrast,
  glare: m.photo_refused_glare,
  'area-too-small': m.photo_refused_area_too_small,
  'no-pattern': m.photo_refused_no_pattern,
} as const;

/** Why a photo gives no figure, and what to do about it (codes of the vision room). */
export function refusalText(code: keyof typeof REFUSED, locale?: 'en' | 'es'): string {
  return REFUSED[code]({}, locale === undefined ? undefined : { locale });
}

const POINTS = {
  'not-an-object': m.points_not_an_object,
  'not-a-list': m.points_not_a_list,
  'not-a-point': m.points_not_a_point,
  'not-four-points': m.points_not_four_points,
  'not-a-size': m.points_not_a_size,
  'unknown-kind': m.points_unknown_kind,
} as const;

/** What is wrong in a file of tapped points. */
export function pointsFaultText(code: keyof typeof POINTS, locale?: 'en' | 'es'): string {
  return POINTS[code]({}, locale === undefined ? undefined : { locale });
}
