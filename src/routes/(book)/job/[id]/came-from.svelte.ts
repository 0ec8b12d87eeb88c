import { afterNavigate } from '$app/navigation';

/** Where a page was opened from: another page of the same job, its section among them. Null when it was opened by its address. */
export interface CameFrom {
  readonly url: URL | null;
}

/** For a page as it is made. `isOwn`: an address of the page itself, at which it stays where it was opened from. */
export function cameFrom(job: string, isOwn: (url: URL) => boolean): CameFrom {
  let url = $state.raw<URL | null>(null);
  afterNavigate(({ from }) => {
    const left = from?.url;
    if (left !== undefined && `${left.pathname}/`.startsWith(`/job/${job}/`) && !isOwn(left)) url = left;
  });
  return {
    get url() {
      return url;
    },
  };
}

/** Back to a callback, for what is looked at or written for one and mostly for something else. */
export function wayBackToCallback(came: CameFrom, otherwise: string): string {
  return came.url?.pathname.endsWith('/callback') === true ? wayBack(came, null, otherwise) : otherwise;
}

/** The way back there. The log is long: it opens where the entry is. */
export function wayBack({ url }: CameFrom, entry: string | null, otherwise: string): string {
  if (url === null) return otherwise;
  return url.pathname + (url.pathname.endsWith('/log') && entry !== null ? `?entry=${entry}` : url.search);
}
