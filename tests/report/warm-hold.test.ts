import { expect, test } from 'vitest';
import { computeSeason } from '../../src/findings/compute';
import { parseDay } from '../../src/plan/dates';
import { readPlan } from '../../src/plan/read';
import { courseReport, daysToStorage } from '../../src/report/course-report';
import { courseText } from '../../src/report/course-text';
import { displayUnits } from '../../src/report/explain';
import { roomCharts } from '../../src/report/room-card-charts';
import { fillFigures } from '../../src/report/room-things';
import { statusReport } from '../../src/report/status-report';
import { statusText } from '../../src/report/status-text';

const PLAN = `lotwright: 1
season: { name: A season, starts: 2026-08-17, ends: 2027-06-20 }
bins: { b: { outside: { length: 1.2 m, width: 1.0 m, height: 0.78 m }, net-fruit: 300 kg, tare: 38 kg, material: plastic } }
rooms:
  R1: { inside: { length: 13 m, width: 6 m, height: 5.8 m }, bin-type: b, refrigeration: { capacity: 60 kW } }
lots: { A: { variety: Honeycrisp, picked: 2026-09-08..2026-09-12, bins: 250 } }
fills:
  F: { room: R1, regime: honeycrisp-conditioned, first-bin: 2026-09-08, last-bin: 2026-09-12, sealed: 2026-09-20, lots: { A: 250 } }
`;

test('fruit of a warm hold is told at its hold, and cold when the room has come down from it', () => {
  const season = computeSeason(readPlan([{ path: 'a.lotplan.yaml', text: PLAN }]), { courses: true });
  const filled = season.filled.get('F');
  const firstBin = parseDay('2026-09-08') ?? Number.NaN;
  const report = courseReport(season, [], 'R1');
  const { daysToCold, daysToStorage: storage } = report.courses[0]?.cases ?? {};
  expect(storage?.value).toBe((filled?.stepDown?.last ?? Number.NaN) + 1 - firstBin);
  expect(storage?.value).toBeGreaterThan(daysToCold?.value ?? Number.NaN);
  const text = courseText(report).replace(/\s+/g, ' ');
  expect(text).toContain(
    `All fruit is at its warm hold ${daysToCold?.value.toFixed(1)} days after the first bin`,
  );
  expect(text).toContain(`at storage temperature ${storage?.value.toFixed(1)} days after it.`);
  expect(text).not.toContain('All fruit is cold');
  expect(filled && daysToStorage(filled, 100)).toBe(100);
});

test("a room's card and its figures tell the warm hold apart from storage temperature", () => {
  const season = computeSeason(readPlan([{ path: 'a.lotplan.yaml', text: PLAN }]), { courses: true });
  const filled = season.filled.get('F');
  if (!filled) throw new Error('no such fill');
  const days = { first: parseDay('2026-09-08') ?? 0, count: 60 };
  const chart = roomCharts(season, filled, days, displayUnits(season.plan)).find(
    ({ id }) => id === 'temperature',
  );
  expect(chart?.description).toMatch(
    /^All fruit is at its warm hold [\d.]+ days after the first bin, and the room at storage temperature 19\.0 days after it\. The room is held at 10\.0 °C for 7 days after its last bin, and at 3\.3 °C from 2026-09-27 on\./,
  );
  expect(chart?.description).not.toContain('cold');
  const figures = fillFigures(season, 'F', 'R1');
  const told = (slug: string) => figures.find((one) => one.slug === slug)?.figure;
  expect(told('days-to-cold')?.name).toBe(
    'days from the first bin until all fruit is seven-eighths at its warm hold',
  );
  expect(told('days-to-storage')).toMatchObject({ unit: 'days', value: 19 });
});

test('the status has such a room cool when it is at storage temperature', () => {
  const season = computeSeason(readPlan([{ path: 'a.lotplan.yaml', text: PLAN }]), { courses: true });
  const report = statusReport(season, parseDay('2026-09-15') ?? 0);
  expect(statusText(report)).toMatch(/R1 .*\(2026-09-27\)/);
});
