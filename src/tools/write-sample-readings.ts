// Writes sample-plans/first-season/readings.csv: invented readings of three rooms, four a day, as the plan's own course
// expects them, with the noise of an instrument. R2's analyser reads a little high, and was out for four days in
// October; R3's oxygen creeps up from mid-November. Run with: npx tsx src/tools/write-sample-readings.ts

import fs from 'node:fs';
import path from 'node:path';
import { computeSeason } from '../findings/compute';
import { formatDay, parseDay } from '../plan/dates';
import { seededRandom } from '../plan/random';
import { readPlan } from '../plan/read';
import { pointAt } from '../room/course/room-course';

const folder = path.join(__dirname, '../../sample-plans/first-season');
const files = fs
  .readdirSync(folder)
  .filter((name) => name.endsWith('.lotplan.yaml'))
  .map((name) => ({ path: name, text: fs.readFileSync(path.join(folder, name), 'utf8') }));
const { courses } = computeSeason(readPlan(files), { courses: true, release: 'none' });
const random = seededRandom(2026);
/** About normal: the sum of four uniform numbers, made to have the deviation. */
const noise = (deviation: number) =>
  (random() + random() + random() + random() - 2) * Math.sqrt(3) * deviation;

const LAST = parseDay('2026-11-25') ?? 0;
const OUT = { room: 'R2', from: parseDay('2026-10-16') ?? 0, to: parseDay('2026-10-19') ?? 0 };
const CREEPS = { room: 'R3', from: parseDay('2026-11-12') ?? 0, perDay: 0.025 };

const rows: string[] = [];
for (const [fill, { course, sealed, room }] of courses?.courses ?? []) {
  const id = fill.split('-')[0] ?? fill;
  for (let day = sealed; day <= LAST; day++)
    for (const hour of [0, 6, 12, 18]) {
      if (id === OUT.room && day >= OUT.from && day <= OUT.to) continue;
      const point = pointAt(course, Math.min(24 * (day - sealed) + hour, room.untilHours));
      if (!point) continue;
      const creep = id === CREEPS.room ? Math.max(0, day - CREEPS.from) * CREEPS.perDay : 0;
      const high = id === OUT.room ? 0.06 : 0;
      const oxygen = point.oxygen + creep + high + noise(0.05);
      const carbonDioxide = Math.max(0, point.carbonDioxide + noise(0.06));
      const air = (room.temperature.knots.at(-1)?.celsius ?? 1) + noise(0.15);
      const time = `${formatDay(day)} ${String(hour).padStart(2, '0')}:00`;
      rows.push([time, id, oxygen.toFixed(2), carbonDioxide.toFixed(2), air.toFixed(1)].join(','));
    }
}
rows.sort();
fs.writeFileSync(path.join(folder, 'readings.csv'), `Time,Room,O2,CO2,Air\n${rows.join('\n')}\n`);
