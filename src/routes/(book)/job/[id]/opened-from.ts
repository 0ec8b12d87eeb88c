/** Where pages were opened from, for as long as the app is open: a page made anew on the way back remembers its own way back. */
export class OpenedFrom {
  readonly #from = new Map<string, URL>();

  /**
   * Notes how somebody came to a page, named by `page`, and answers where it was opened from: another page of the job, or null. `left` is where
   * they came from; `isOwn`: an address at which it stays where it was opened from before, its own among them.
   */
  arrive(page: string, left: URL | null, job: string, isOwn: (url: URL) => boolean): URL | null {
    if (left !== null && isOwn(left)) return this.#from.get(page) ?? null;
    if (left !== null && `${left.pathname}/`.startsWith(`/job/${job}/`)) this.#from.set(page, left);
    else this.#from.delete(page);
    return this.#from.get(page) ?? null;
  }
}
