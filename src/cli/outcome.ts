/** What a command answers: one JSON for stdout, and the exit code that says the same to a script. */
export interface Outcome {
  /** 0 done or as written; 1 changed, missing or extra; 2 bad input; 3 content whole, container rewritten. */
  readonly exit: 0 | 1 | 2 | 3;
  readonly answer: object;
}

/** What a command is called with. Paths are absolute; what a command does not take, or was not given, is ''. */
export interface Call {
  /** Of a function. */
  readonly name: string;
  readonly file: string;
  readonly out: string;
  /** JSON of the points tapped in a photo. */
  readonly points: string;
  /** Where a drawing is to be written. */
  readonly svg: string;
  /** Language of the messages, from the terminal's own setting. */
  readonly locale: 'en' | 'es';
}

/** `field` is the argument at fault, or the file inside an archive. */
export function badInput(field: string, code: string, message: string): Outcome {
  return { exit: 2, answer: { error: { field, code, message } } };
}
