/** What the service worker says to the page. */
export interface ShellEvents {
  /** Every part of the app is on the phone: it works with no network from here on. */
  readyOffline(): void;
  /** A newer build is on the phone and waits for its turn. */
  newerWaits(): void;
}

/**
 * Registers the service worker and tells what becomes of it; the returned function lets a waiting newer build take over and
 * loads the page anew. On addresses without https, and where the browser refuses, the book works as long as the network does.
 */
export async function startShell(events: ShellEvents): Promise<(() => void) | null> {
  const workers = (navigator as Partial<Navigator>).serviceWorker;
  if (workers === undefined) return null;
  const registration = await workers.register('/service-worker.js', { updateViaCache: 'none' }).catch(() => null);
  if (registration === null) return null;
  const noticeWaiting = () => {
    if (registration.waiting !== null && workers.controller !== null) events.newerWaits();
  };
  noticeWaiting();
  registration.addEventListener('updatefound', () => registration.installing?.addEventListener('statechange', noticeWaiting));
  void workers.ready.then(({ active }) => {
    const { port1, port2 } = new MessageChannel();
    port1.onmessage = ({ data }) => {
      if (data === 'ready-offline') events.readyOffline();
    };
    active?.postMessage('cache-heavy', [port2]);
  });
  return () => {
    // Once another page has let it take over, only loading is left.
    if (registration.waiting === null) {
      location.reload();
      return;
    }
    workers.addEventListener('controllerchange', () => location.reload(), { once: true });
    registration.waiting.postMessage('take-over');
  };
}
