/** Things of one sort on one line: `1: Length 30 in, Turn 90°; 2: Length 5 ft 0 in`. */
export function listText<Field>(items: readonly (readonly Field[])[], say: (field: Field) => string): string {
  return items.map((fields, i) => `${i + 1}: ${fields.map(say).join(', ')}`).join('; ');
}
