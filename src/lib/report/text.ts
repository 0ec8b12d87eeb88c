/** Faces of the record, each in one cut: nothing is set lighter, slanted or in another family. */
export type Face = 'text' | 'strong';

/** Width in points of a piece of text. */
export type Measure = (text: string, face: Face, size: number) => number;

/** Line height over size: above the face's own ascent and descent, so that lines never touch. */
export const LEADING = 1.3;

/**
 * Characters the embedded face has a glyph for and that leave ink or a space. Tested against the font file: one that is not
 * in it must not be here.
 */
const PRINTABLE =
  /[ -~\u00a0-\u00ac\u00ae-\u00ffıŒœ\u2013\u2014\u2018-\u201a\u201c-\u201e\u2022\u2026\u2032\u2033\u2039\u203a\u20ac\u2122\u2191\u2193\u2212]/u;

/**
 * Text as it can be printed. What the face lacks (other scripts, emoji, controls, marks that turn the direction) stands as its
 * code points, `[U+1F6BF]`, so that nothing a person wrote vanishes without a trace. Lines end at a line feed.
 */
export function printable(text: string): string {
  let printed = '';
  let codes: string[] = [];
  const flush = () => {
    if (codes.length > 0) printed += `[${codes.join(' ')}]`;
    codes = [];
  };
  for (const character of text
    .normalize('NFC')
    .replace(/\r\n?|\u2028|\u2029/g, '\n')
    .replaceAll('\t', ' ')) {
    if (character === '\n' || PRINTABLE.test(character)) {
      flush();
      printed += character;
    } else {
      codes.push(`U+${character.codePointAt(0)!.toString(16).toUpperCase().padStart(4, '0')}`);
    }
  }
  flush();
  return printed;
}

/** Text broken into lines no wider than `width` points: at spaces, and inside a word only where the word alone is wider. */
export function wrap(text: string, face: Face, size: number, width: number, measure: Measure): string[] {
  // Widths are added up from words, and from characters inside one: each is measured once, however long the text.
  const widthOf = (piece: string) => measure(piece, face, size);
  const space = widthOf(' ');
  return printable(text)
    .split('\n')
    .flatMap((paragraph) => {
      const lines: string[] = [];
      let line = '';
      let used = 0;
      for (const word of paragraph.split(' ').filter((piece) => piece !== '')) {
        const longer = used + space + widthOf(word);
        if (line !== '' && longer <= width) {
          line += ` ${word}`;
          used = longer;
          continue;
        }
        if (line !== '') lines.push(line);
        const pieces = widthOf(word) <= width ? [word] : broken(word, width, widthOf);
        lines.push(...pieces.slice(0, -1));
        line = pieces.at(-1)!;
        used = widthOf(line);
      }
      // What held a value together has done its work: in the file a space is a space.
      return [...lines, line].map((one) => one.replaceAll('\u00a0', ' '));
    });
}

/** A word in pieces that fit, at least a character each. */
function broken(word: string, width: number, widthOf: (piece: string) => number): string[] {
  const pieces: string[] = [];
  let piece = '';
  let used = 0;
  for (const character of word) {
    const own = widthOf(character);
    if (piece !== '' && used + own > width) {
      pieces.push(piece);
      piece = '';
      used = 0;
    }
    piece += character;
    used += own;
  }
  return [...pieces, piece];
}

/** Text cut to one line, with an ellipsis where something was cut. */
export function oneLine(text: string, face: Face, size: number, width: number, measure: Measure): string {
  const whole = printable(text).replaceAll('\n', ' ');
  if (measure(whole, face, size) <= width) return whole;
  const [first = ''] = broken(whole, width - measure('…', face, size), (piece) => measure(piece, face, size));
  return `${first.trimEnd()}…`;
}
