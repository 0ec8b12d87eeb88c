/** Whether the browser may throw the store away by itself when it wants room or the book is not opened for some days. */
export type Persistence = 'kept' | 'may-be-cleared' | 'unknown';

/** How the store stands now, without asking for anything. */
export function persistence(): Promise<Persistence> {
  return say((storage) => storage.persisted());
}

/**
 * Asks the browser to keep the store for good; for the moment after the first saved entry, and each start from then on, since
 * some browsers grant it only once the book is used. A browser may put the question to the person, so never wait for it before saving.
 */
export function askToKeep(): Promise<Persistence> {
  return say(async (storage) => (await storage.persisted()) || (await storage.persist()));
}

async function say(ask: (storage: StorageManager) => Promise<boolean>): Promise<Persistence> {
  // Hidden altogether on addresses without https.
  const storage = (navigator as Partial<Navigator>).storage;
  if (storage === undefined) return 'unknown';
  try {
    return (await ask(storage)) ? 'kept' : 'may-be-cleared';
  } catch {
    return 'unknown';
  }
}
