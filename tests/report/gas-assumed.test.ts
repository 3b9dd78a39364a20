import { describe, expect, it } from 'vitest';
import { computeSeason } from '../../src/findings/compute';
import { findingsOf } from '../../src/findings/find';
import { formatDay, parseDay } from '../../src/plan/dates';
import { readPlan } from '../../src/plan/read';
import { windowsReport } from '../../src/report/windows-report';
import { windowsText } from '../../src/report/windows-text';

/** A room of Gala on this plant, sealed on 6 September. */
function plan(ofRoom: string, more = '') {
  const text = `lotwright: 1
season: { name: Test, starts: 2026-08-31, ends: 2027-06-27 }
bins:
  p: { outside: { length: 1.2 m, width: 1 m, height: 0.78 m }, net-fruit: 300 kg, tare: 38 kg, material: plastic }
rooms:
  R1:
    inside: { length: 13.1 m, width: 5.9 m, height: 5.8 m }
    bin-type: p
    refrigeration: { capacity: 45 kW, group: engine }
    tightness: { from: 250 Pa, to: 125 Pa, after: 32 min }
${ofRoom}
plant:
  scrubbers:
    S1: { kind: carbon, removal: 60 kg/day, at-level: 3 % }
  nitrogen:
    N1: { kind: adsorption, flows: [{ purity: 97 %, flow: 90 m3/h }, { purity: 99 %, flow: 55 m3/h }] }
  refrigeration:
    engine: { capacity: 200 kW, refrigerant: ammonia }
lots:
  L1: { variety: Gala, picked: 2026-08-31..2026-09-04, bins: 280, maturity: { starch: 2.8, firmness: 82 N } }
fills:
  F1: { room: R1, regime: gala-standard, first-bin: 2026-08-31, last-bin: 2026-09-04, sealed: 2026-09-06, lots: { L1: 280 } }
${more}`;
  return readPlan([{ path: 'a.lotplan.yaml', text }]);
}

function reported(ofRoom: string, more?: string) {
  const season = computeSeason(plan(ofRoom, more), { release: 'quick', seed: 1, courses: true });
  const findings = findingsOf(season);
  const report = windowsReport(season, findings, { today: parseDay('2026-09-10') ?? 0 });
  const course = season.courses?.courses.get('F1');
  return { findings, course, text: windowsText(report).replace(/\s+/g, ' '), row: report.rooms[0] };
}

describe('a sealed room whose own course contradicts its window', () => {
  it('without scrubber and nitrogen is an error, with its day, and its window says what it counts', () => {
    const { findings, course, text, row } = reported('');
    const hours = course?.hoursToSetPoint?.value ?? Number.NaN;
    const setPoint = formatDay((course?.sealed ?? 0) + Math.floor(hours / 24));
    const from = row?.gasAssumed?.carbonDioxideAbove ?? '';
    expect(row?.gasAssumed).toMatchObject({ days: 3, setPoint, late: true });
    expect(from > '2026-09-06' && from < setPoint).toBe(true);
    expect(text).toContain(
      `R1: The window counts 3 days from sealing to the gas, as for every room; by its own course it comes to its set-point on ${setPoint}.`,
    );
    expect(text).toContain(`carbon dioxide is above what its fruit bears from ${from} on`);
    const finding = findings.find(({ code }) => code === 'sealed-without-scrubber');
    expect(finding?.severity).toBe('error');
    expect(finding?.message).toContain(`is passed on ${from}`);
    const highest = course?.highestCarbonDioxide.value ?? 0;
    expect(highest).toBeGreaterThan(10);
    expect(finding?.message).toContain(`comes to ${highest.toFixed(1)} % before the room opens`);
    expect(findings.find(({ code }) => code === 'set-point-late')?.message).toContain(
      "and the room's window counts 3.",
    );
  });

  it('is not told of its gas where the set-point is on record', () => {
    const happened = 'progress:\n  F1: { sealed: 2026-09-06, set-point: 2026-09-08 }\n';
    const { row } = reported('', happened);
    expect(row?.gasAssumed?.late).toBe(false);
    expect(row?.gasAssumed?.carbonDioxideAbove).toBeDefined();
  });
});

it('a room that its plant holds is not spoken of', () => {
  const { findings, text, row } = reported('    scrubber: S1\n    nitrogen: N1');
  expect(row?.gasAssumed).toBeUndefined();
  expect(text).not.toContain('The window counts');
  expect(findings.map(({ code }) => code)).not.toContain('sealed-without-scrubber');
});
