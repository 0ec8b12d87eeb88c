/** A longer word is cut: nobody types more of one. */
const LONGEST = 32;

/** The words of a text as they are looked for: without accents, capitals and signs. `"5471-A"` is `5471`, `a` and, as lots are typed, `5471a`. */
export function wordsOf(text: string): string[] {
  const plain = text.normalize('NFKD').replaceAll(/\p{M}/gu, '').toLowerCase();
  const parts = plain.split(/[^\p{L}\p{N}]+/u).filter((part) => part !== '');
  return parts.map((part) => [...part].slice(0, LONGEST).join(''));
}

/** A name of letters and figures as one word, however it is spaced or hyphened. */
export function asOneWord(text: string): string | null {
  const parts = wordsOf(text);
  return parts.length > 1 ? [...parts.join('')].slice(0, LONGEST).join('') : null;
}

/** How many slips of a finger a word may hold and still be found: none in the shortest, where every other word is one slip away. */
export function slipsAllowed(word: string): 0 | 1 | 2 {
  return word.length < 4 ? 0 : word.length < 8 ? 1 : 2;
}

/** Of a long word only the beginning is taken apart, or each would bring hundreds of rows. */
const TAKEN_APART = 7;

/**
 * A word without each of its letters, and without each two of them where two slips are allowed, and the word itself. Two words that are no
 * more slips apart share one of these (W. Garbe's symmetric delete), so a misspelt word is found by looking up a few keys, never by
 * going through the words there are.
 */
export function shortened(word: string): Set<string> {
  const begin = word.slice(0, TAKEN_APART);
  const all = new Set([begin]);
  let last = [begin];
  for (let slips = 0; slips < slipsAllowed(word); slips++) {
    last = last.flatMap((one) => Array.from(one, (_, i) => one.slice(0, i) + one.slice(i + 1)));
    for (const one of last) all.add(one);
  }
  return all;
}

/** Whether two words are at most so many slips apart: a letter too many, missing, another, or two exchanged (optimal string alignment). */
export function isNear(a: string, b: string, slips: number): boolean {
  if (Math.abs(a.length - b.length) > slips) return false;
  let before: number[] = [];
  let above = Array.from({ length: b.length + 1 }, (_, k) => k);
  for (let i = 1; i <= a.length; i++) {
    const row = [i];
    for (let k = 1; k <= b.length; k++) {
      const same = a[i - 1] === b[k - 1] ? 0 : 1;
      let least = Math.min(above[k]! + 1, row[k - 1]! + 1, above[k - 1]! + same);
      if (i > 1 && k > 1 && a[i - 1] === b[k - 2] && a[i - 2] === b[k - 1]) least = Math.min(least, before[k - 2]! + 1);
      row.push(least);
    }
    if (Math.min(...row) > slips) return false;
    [before, above] = [above, row];
  }
  return above[b.length]! <= slips;
}
