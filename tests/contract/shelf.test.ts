import 'fake-indexeddb/auto';
import { describe, it } from 'vitest';
import { openIdbShelf } from '#lib/device/store/idb-shelf.ts';
import { MemoryShelf } from '#lib/record/memory-shelf.ts';
import type { Shelf } from '#lib/record/shelf.ts';
import { Disk, PowerShelf } from '../sim/power-shelf.ts';
import { BOOK_CASES } from './book-contract.ts';
import { SHELF_CASES } from './shelf-contract.ts';

let stores = 0;
const SHELVES: readonly { name: string; open: () => Shelf }[] = [
  { name: 'memory', open: () => new MemoryShelf() },
  { name: 'IndexedDB', open: () => openIdbShelf(`contract-${stores++}`, { superseded: () => undefined }) },
  { name: 'simulated disk', open: () => new PowerShelf(new Disk()) },
];

describe.each(SHELVES)('$name', ({ open }) => {
  describe('as a shelf', () => {
    it.each(SHELF_CASES)('$name', ({ run }) => run(open()));
  });
  describe('with the book on it', () => {
    it.each(BOOK_CASES)('$name', ({ run }) => run(open()));
  });
});
