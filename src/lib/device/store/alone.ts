/**
 * Holds a name alone among all pages of this browser, until the returned function is called or this page ends, killed or not. Null while another
 * page, or this one, holds it. Where the browser knows no such locks nobody holds anything.
 */
export function holdAlone(name: string): Promise<(() => void) | null> {
  const { locks } = navigator as Partial<Navigator>;
  if (locks === undefined) return Promise.resolve(() => undefined);
  return new Promise((resolve, reject) => {
    const held = locks.request(name, { ifAvailable: true }, (lock) => {
      if (lock !== null) return new Promise<void>((release) => resolve(release));
      resolve(null);
      return undefined;
    });
    held.catch(reject);
  });
}
