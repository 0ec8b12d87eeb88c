import { expect, it } from 'vitest';
import { randomId } from '#lib/device/random-id.ts';
import { Id } from '#lib/record/entry.ts';

it('ids are version 4 UUIDs and fit the entry', () => {
  const ids = Array.from({ length: 200 }, randomId);
  for (const id of ids) {
    expect(id).toMatch(/^[0-9a-f]{8}-[0-9a-f]{4}-4[0-9a-f]{3}-[89ab][0-9a-f]{3}-[0-9a-f]{12}$/);
    expect(Id.safeParse(id).success).toBe(true);
  }
  expect(new Set(ids).size).toBe(200);
});
