import type { Disorder } from '../fruit/types';
import type { DisorderRisk, Show } from '../keeping/disorders';
import type { LotKeeping, RoomKeeping } from '../keeping/types';
import { formatWeek } from '../plan/dates';
import { type DisplayUnits, temperaturesIn } from '../plan/display';
import { listed } from '../plan/wording';

/** One disorder of a room, with the lots that it threatens alike. */
export interface RoomRisk {
  readonly risk: DisorderRisk;
  readonly lots: readonly LotKeeping[];
  /** Why, in words. */
  readonly because: string;
}

/** The disorders of a room's lots, those alike told once; the first to come first. */
export function risksOf({ lots }: Pick<RoomKeeping, 'lots'>, show: Show): RoomRisk[] {
  const alike = new Map<string, { risk: DisorderRisk; lots: LotKeeping[]; because: string }>();
  for (const lot of lots) {
    for (const risk of lot.disorders) {
      const because = risk.because(show);
      const key = JSON.stringify([risk.disorder.id, lot.inRoom.variety.name, because, risk.eased]);
      const known = alike.get(key);
      if (!known) alike.set(key, { risk, lots: [lot], because });
      else {
        known.lots.push(lot);
        if (risk.begins.value < known.risk.begins.value) known.risk = risk;
      }
    }
  }
  return [...alike.values()].sort((a, b) => a.risk.from - b.risk.from);
}

/** `from 2026-W50 on`, `from 2026-W38 to 2027-W02` */
export function riskWeeks({ from, until }: DisorderRisk): string {
  return until === undefined
    ? `from ${formatWeek(from)} on`
    : `from ${formatWeek(from)} to ${formatWeek(until)}`;
}

/** `At risk of superficial scald from 2026-W50 on: it has had no antioxidant or 1-MCP.` */
export function riskSentence(risk: DisorderRisk, because: string, units: DisplayUnits): string {
  const eased = risk.eased === undefined ? '' : ` Less so here: ${risk.eased}.`;
  return `At risk of ${risk.title} ${riskWeeks(risk)}${because === '' ? '' : `: ${because}`}. ${disorderTold(risk.disorder, units)}${eased}`;
}

/** What the source tells of a disorder, its temperatures in the reader's units. */
export function disorderTold({ told }: Disorder, units: DisplayUnits): string {
  return temperaturesIn(told, units);
}

/** `L1, L2 and 3 more` */
export function lotsOf({ lots }: RoomRisk): string {
  return listed(lots.map(({ lot }) => lot.id));
}
