import { expect, it } from 'vitest';
import { findingsOnExample, readPage } from './page';

it('nitrogen that cannot reach: the hours without the leak and the day with it are told apart', () => {
  const [example = ''] = readPage('nitrogen-cannot-reach').wrong;
  const found = findingsOnExample(example).find(({ code }) => code === 'nitrogen-cannot-reach');
  expect(found?.message).toMatch(/the fruit would take about \d+ h to [\d.]+ % if no air leaked in\. /);
  expect(found?.message).toMatch(/ With what leaks in, it (?:gets there on \d|never gets there: )/);
});
