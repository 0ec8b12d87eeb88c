import { afterNavigate } from '$app/navigation';
import { OpenedFrom } from './opened-from.ts';

/** Where a page was opened from: another page of the same job, its section among them. Null when it was opened by its address. */
export interface CameFrom {
  readonly url: URL | null;
}

const opened = new OpenedFrom();

/** For a page as it is made. `isOwn`: an address at which it stays where it was opened from. `of`: what it shows, where that is one of several. */
export function cameFrom(job: string, isOwn: (url: URL) => boolean, of: (url: URL) => string = () => ''): CameFrom {
  let url = $state.raw<URL | null>(null);
  afterNavigate(({ from, to }) => {
    if (to !== null) url = opened.arrive(`${to.url.pathname} ${of(to.url)}`, from?.url ?? null, job, isOwn);
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
