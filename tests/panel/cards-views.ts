import { computeSeason } from '../../src/findings/compute';
import { findingsOf } from '../../src/findings/find';
import { parseDay } from '../../src/plan/dates';
import { readPlan } from '../../src/plan/read';
import type { RoomCard, SeasonCard } from '../../src/report/card-types';
import { roomCard } from '../../src/report/room-card';
import { seasonCard } from '../../src/report/season-card';
import { timelineView } from '../../src/report/timeline';
import type { TimelineView } from '../../src/report/timeline-types';
import { sampleReadings } from '../samples/readings';
import { sampleFiles } from '../samples/sample';

export interface CardViews {
  readonly view: TimelineView;
  room(key: string): RoomCard;
  readonly season: SeasonCard;
}

/** A sample plan's timeline and cards, as the server makes them once a plan has settled. */
export function cardViews(name: string, edit?: (text: string) => string): CardViews {
  const files = sampleFiles(name);
  const plan = readPlan(files);
  const season = computeSeason(plan, { courses: true });
  const readings = sampleReadings(name, plan);
  const findings = findingsOf(season);
  const today = parseDay('2026-12-09');
  const other = edit && computeSeason(readPlan(files.map(({ path, text }) => ({ path, text: edit(text) }))));
  const view = timelineView(season, findings, {
    revision: 1,
    ...(today !== undefined && { today }),
    ...(other && { against: { label: 'the last saved text', season: other } }),
  });
  return {
    view,
    room: (key) => {
      const card = roomCard(season, findings, key, 1, readings);
      if (!card) throw new Error(`no card of ${key}`);
      return card;
    },
    season: seasonCard(season, findings, 1),
  };
}
