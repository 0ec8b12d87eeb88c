import type { SaidField } from '#lib/job/said-field.ts';
import { grouped } from '#lib/report/speaker.ts';
import { limitSourceText } from '#lib/words/limit.ts';
import { quantityText, spanText } from '#lib/words/number.ts';
import { clockText, dateText } from '#lib/words/time.ts';

/** What an entry must leave on paper: people's words, values, sources, hashes of files. Codes and ids are left to their words. */
export function promisedBy(fields: readonly SaidField[], locale: 'en' | 'es', offsetMin = -300): string[] {
  return fields.flatMap((field) => {
    switch (field.is) {
      case 'words':
      case 'tag':
        return [field.text];
      case 'quantity':
        // Minutes are said as hours.
        if (field.unit === 'min' && field.text === null) return [];
        return [
          field.to === null ? quantityText(field, locale) : spanText({ ...field, to: field.to }, locale),
          ...(field.text?.includes(' ') === true ? [field.text] : []),
        ];
      case 'source':
        return [limitSourceText({ source: field, min: null, max: null, unit: 'count' }, locale)];
      case 'files':
        return field.files.map((file) => grouped(file.sha256, 16));
      case 'day':
        return [dateText(`${field.day}T00:00:00Z`, 0, locale)];
      case 'instant':
        return [clockText(field.utc, offsetMin, locale)];
      default:
        return [];
    }
  });
}
