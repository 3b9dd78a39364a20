import { describe, expect, it } from 'vitest';
import { computeSeason } from '../../src/findings/compute';
import { findingsOf } from '../../src/findings/find';
import { readPlan } from '../../src/plan/read';
import { cureText } from '../../src/report/reason-text';
import { releaseReport } from '../../src/report/release-report';
import { present } from '../fruit/plans';
import { sampleFiles } from '../samples/sample';

type Change = readonly [from: string | RegExp, to: string];

/** The first season with its text changed: its findings, and what is said to cure each order's shortage. */
function told(...changes: readonly Change[]) {
  const files = sampleFiles('first-season').map((file) => ({
    ...file,
    text: changes.reduce((text, [from, to]) => text.replace(from, to), file.text),
  }));
  const season = computeSeason(readPlan(files), { release: 'quick', seed: 1 });
  const findings = findingsOf(season);
  const release = present(season.release, 'a schedule');
  const { shortages } = releaseReport(season, release, findings, { violations: [], stoppedEarly: false });
  return {
    finding: (code: string) => findings.filter((one) => one.code === code).map(({ message }) => message),
    cures: shortages.map((one) => cureText(one, 'EUR')),
  };
}

const order = (text: string): Change => [/^demand:\n/m, `demand:\n  wanted: { ${text}, price: 30 }\n`];

describe('an order that nothing is there for', () => {
  it('is of a class that its variety is not packed into', () => {
    const { cures } = told(order('market: home, variety: Gala, class: extra, weeks: 2026-W40, cartons: 50'));
    expect(cures).toEqual([
      'wanted in 2026-W40, 50 short: Gala is not packed into the class extra: its packout has first and second; order one of these, or add the class under `packing`; or buy in, or agree on 50 cartons less',
    ]);
  });

  it('is of a variety that is stored nowhere', () => {
    const { cures } = told(order('market: home, variety: Fuji, class: first, weeks: 2027-W08, cartons: 50'));
    expect(cures).toEqual([
      'wanted in 2027-W08, 50 short: no room holds Fuji, and no lot of it is packed at harvest; fill a room with it, or take the order out; or buy in, or agree on 50 cartons less',
    ]);
  });

  it('wants firmer fruit than any lot will be in its weeks: the firmest is told with its firmness', () => {
    const { cures, finding } = told(['least-firmness: 55 N', 'least-firmness: 90 N']);
    const firmest =
      /it wants at least 90 N, and the firmest lot stored, G\d in R2-gala, is expected at \d\d(\.\d)? N in 2027-W01/;
    expect(cures.join('\n')).toMatch(firmest);
    const [short] = finding('demand-short');
    expect(short).toMatch(firmest);
    expect(short).toContain('To do: agree on a lower `least-firmness`, bring the order forward, or buy in.');
    expect(finding('softer-than-market-wants').join()).toMatch(/G4 in R2-gala \(\d\d(\.\d)? N in 2027-W01\)/);
  });

  it('is of weeks in which no room of its variety can be sold any more: there is something to do all the same', () => {
    const { finding } = told(
      order('market: home, variety: Gala, class: first, weeks: 2027-W14..2027-W15, cartons: 200'),
    );
    expect(finding('demand-short').join()).toMatch(
      /No schedule delivers any of it: Gala is in R1-gala and R2-gala, whose cartons can be sold from 2026-W38 to 2027-W\d\d\. To do: bring the order forward, /,
    );
  });

  it('is of a market that its rooms are not kept for', () => {
    const { cures } = told(
      [/regime: gala-own\n/, 'regime: gala-own\n    for-markets: [schools]\n'],
      [/regime: early-air\n/, 'regime: early-air\n    for-markets: [schools]\n'],
    );
    expect(cures.join('\n')).toContain('Gala is in R1-gala and R2-gala, kept for other markets');
  });
});

describe('a cure of a part of a shortage', () => {
  it('says how much of what is short it covers', () => {
    const { cures } = told(
      order('market: home, variety: Gala, class: first, weeks: 2027-W13..2027-W15, cartons: 200'),
    );
    expect(cures.join('\n')).toMatch(/\(\d+ of 200 cartons(, \d+ in all its weeks)?, costs EUR/);
  });
});

describe('lots never tested', () => {
  it('are named once for a market that sets a least firmness, and not where none does', () => {
    const untested: Change = [/, maturity: \{ tested: 2026-09-07[^}]*\}/, ''];
    const found = told(untested).finding('softer-than-market-wants');
    expect(found).toEqual([
      'Orders of the market `home` set a least firmness, and none is known of 1 lot that is in and may be sold there: G4. They are sold as if they were firm enough. Test them at harvest and write `maturity: firmness`, or add a sample.',
    ]);
    expect(told(untested, [/\n {4}least-firmness: 55 N/, '']).finding('softer-than-market-wants')).toEqual(
      [],
    );
  });
});
