import { expect, it } from 'vitest';
import { caution, limeCaution, refrigerantCaution } from '../../src/room/caution';

it('names both readings, the instrument, local codes and trained people, and never calls a room safe', () => {
  expect(caution).toMatch(/oxygen and carbon dioxide, both, with a calibrated instrument/);
  expect(caution).toMatch(/Local codes and trained, licensed people/);
  expect(refrigerantCaution).toMatch(
    /oxygen, carbon dioxide and refrigerant, all three, with calibrated instruments/,
  );
  for (const text of [caution, limeCaution, refrigerantCaution]) {
    expect(text).toMatch(/trained, licensed people/);
    expect(text).not.toMatch(/\bsafe\b/i);
    expect(text).toMatch(/local codes/i);
  }
});
