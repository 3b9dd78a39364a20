import type { DisorderRisk } from '../../keeping/disorders';
import { weeksToEmpty } from '../../keeping/latest';
import type { LotKeeping, RoomKeeping } from '../../keeping/types';
import { formatWeek, type Week } from '../../plan/dates';
import type { Problem } from '../../plan/problem';
import { counted, listed } from '../../plan/wording';
import { cautionInShort } from '../../room/caution';
import { fillNeverOpens } from '../never-opens';
import { shower, unitsOf } from '../say';
import { disorderTold } from '../say-disorders';
import type { ComputedSeason, Rule } from '../types';

interface Threat {
  readonly keeping: RoomKeeping;
  readonly lot: LotKeeping;
  readonly risk: DisorderRisk;
}

/** Every disorder that threatens a lot of a highly susceptible variety, where nothing here lessens it. */
function* threats({ keeping }: ComputedSeason): Iterable<Threat> {
  for (const room of keeping.values())
    for (const lot of room.lots)
      for (const risk of lot.disorders)
        if (risk.disorder.susceptible === 'highly' && risk.eased === undefined)
          yield { keeping: room, lot, risk };
}

/**
 * Carbon dioxide that a later stage of the regime brings in the months when it injures. Where the regime's own level is
 * too high, another rule says so.
 */
function* carbonDioxideEarly(season: ComputedSeason): Iterable<Problem> {
  const show = shower(season);
  const said = new Set<string>();
  for (const { keeping, lot, risk } of threats(season)) {
    const { fill, regime } = keeping.filled;
    const { variety } = lot.inRoom;
    if (risk.disorder.id !== 'carbon-dioxide-injury' || said.has(fill.id)) continue;
    const level = regime?.carbonDioxide;
    if (level && level.value > variety.mostCarbonDioxide.value) continue;
    said.add(fill.id);
    yield {
      code: 'carbon-dioxide-early',
      message: `${fill.id}: from ${formatWeek(risk.from)} on ${variety.name} is at risk of carbon dioxide injury: ${risk.because(show)}, and the risk lasts to ${formatWeek(risk.until ?? risk.from)}. ${disorderTold(risk.disorder, unitsOf(season))} Let the higher level begin after that, or hold the lower one.`,
      at: fill.regime?.at ?? fill.at,
      related: fill.sealed ? [{ at: fill.sealed.at, message: 'Sealed' }] : [],
      about: fill.id,
    };
  }
}

/** The week the room opens in: pinned, else by the schedule, else the latest it may. */
function opening({ release }: ComputedSeason, { filled, window }: RoomKeeping): Week | undefined {
  const { open, id } = filled.fill;
  if (open) return open.value;
  const index = release?.problem.rooms.findIndex(({ fill }) => fill === id) ?? -1;
  const chosen = release?.result.schedule.opens[index];
  if (release && chosen !== undefined && chosen !== null) return release.problem.firstWeek + chosen;
  return window?.latest.week;
}

/** When the room opens, or why it cannot. */
function openingText(season: ComputedSeason, fill: string, opens: Week): string {
  const never = fillNeverOpens(season, fill);
  if (!never) return `open in ${formatWeek(opens)}`;
  return never.kind === 'no-window'
    ? 'with no week to open in as its window is empty'
    : 'with no week to open in as it is too large to empty in time';
}

const LATE: ReadonlySet<string> = new Set(['scald', 'senescent-scald', 'soft-scald', 'browning']);

/** Disorders that come late, in rooms still being packed by then. One for a disorder and variety, not one a room. */
function* disorderBeforeOpening(season: ComputedSeason): Iterable<Problem> {
  const show = shower(season);
  const weeks = season.plan.packing ? weeksToEmpty(season.plan.packing.daysToEmpty) : 2;
  const groups = new Map<string, { threat: Threat; rooms: Map<string, string> }>();
  for (const threat of threats(season)) {
    const { keeping, lot, risk } = threat;
    const opens = opening(season, keeping);
    if (!LATE.has(risk.disorder.id) || opens === undefined || opens + weeks - 1 < risk.from) continue;
    if (keeping.filled.fill.emptied) continue;
    const key = `${risk.disorder.id} ${lot.inRoom.variety.name}`;
    const group = groups.get(key) ?? { threat, rooms: new Map<string, string>() };
    groups.set(key, group);
    const { fill } = keeping.filled;
    if (!group.rooms.has(fill.id))
      group.rooms.set(
        fill.id,
        `${fill.id} from ${formatWeek(risk.from)}, ${openingText(season, fill.id, opens)}`,
      );
  }
  for (const [key, { threat, rooms }] of groups) {
    const { keeping, lot, risk } = threat;
    const because = risk.because(show);
    yield {
      code: 'disorder-before-opening',
      message: `${lot.inRoom.variety.name} is at risk of ${risk.title} before it is packed in ${counted(rooms.size, 'room')} (${listed([...rooms.values()], 4)})${because === '' ? '' : `: ${because}`}. ${disorderTold(risk.disorder, unitsOf(season))} Open these rooms sooner, or look at samples before each is opened. ${cautionInShort}`,
      at: keeping.filled.fill.at,
      related: [{ at: lot.lot.at, message: `Lot ${lot.lot.id}` }],
      about: key,
    };
  }
}

export const disorderRules: readonly Rule[] = [
  {
    code: 'carbon-dioxide-early',
    family: 'keeping',
    severity: 'warning',
    summary: 'More carbon dioxide than a variety bears, in the months when it injures.',
    find: carbonDioxideEarly,
  },
  {
    code: 'disorder-before-opening',
    family: 'keeping',
    severity: 'notice',
    summary: 'Rooms packed after a disorder of their fruit may have come.',
    find: disorderBeforeOpening,
  },
];
