import { expect, test } from 'vitest';
import { areAlike, differingPaths, fieldsOf } from '../../src/compare/fields';
import { thingsOf } from '../../src/compare/things';
import { readPlan } from '../../src/plan/read';
import { sampleFiles } from '../samples/sample';
import { fortyEdits, withChanges } from './forty-edits';

const samples = ['first-season', 'us-units', 'full-season', 'with-mistakes'];

test.each(samples)('what was read twice of the same text is alike: %s', (name) => {
  const files = sampleFiles(name);
  const moved = files.map(({ path, text }) => ({ path: `elsewhere/${path}`, text: `# moved\n${text}` }));
  const again = thingsOf(readPlan(moved));
  thingsOf(readPlan(files)).forEach(({ thing, value }, index) => {
    expect([thing, areAlike(value, again[index]?.value)]).toEqual([again[index]?.thing, true]);
  });
});

test('what is alike differs in no field, and what differs in one is not alike', () => {
  const files = sampleFiles('full-season');
  const edited = thingsOf(readPlan(withChanges(files, fortyEdits)));
  const plain = thingsOf(readPlan(files));
  let [same, different] = [0, 0];
  for (const kind of new Set(plain.map(({ thing }) => thing.kind))) {
    const ofKind = plain.filter(({ thing }) => thing.kind === kind).slice(0, 25);
    for (const { thing, value } of edited.filter((one) => one.thing.kind === kind)) {
      const own = plain.find((one) => one.thing.kind === kind && one.thing.id === thing.id);
      for (const other of own ? [own, ...ofKind] : ofKind) {
        const paths = differingPaths(fieldsOf(value), fieldsOf(other.value));
        const alike = areAlike(value, other.value);
        if (alike) expect(paths).toEqual([]);
        if (paths.length > 0) expect(alike).toBe(false);
        if (alike) same++;
        else different++;
      }
    }
  }
  expect(same).toBeGreaterThan(300);
  expect(different).toBeGreaterThan(3000);
});
