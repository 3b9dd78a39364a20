import type { ComputedSeason, Finding } from '../findings/types';
import { streifIndex } from '../keeping/maturity';
import { formatDay, formatWeek } from '../plan/dates';
import { type DisplayUnits, fixed, showFigure } from '../plan/display';
import type { Lot } from '../plan/model';
import type { RoomReadings } from '../readings/types';
import { caution } from '../room/caution';
import type { FilledRoom, LotInRoom, RoomCapacity } from '../room/types';
import { recordMore } from '../watching/record';
import { toldWindow } from './by-confidence';
import type { CardFinding, CardTable, RoomCard } from './card-types';
import { displayUnits } from './explain';
import { varietiesOf, varietyName } from './parts';
import { roomCharts } from './room-card-charts';
import { cardDays, cardEvents, dayLabels, monthsAmong } from './room-card-days';
import { roomFacts } from './room-card-facts';
import { withReadings } from './room-card-readings';
import { sightingsInRoom, type WatchReadings } from './room-card-sightings';
import { openingOf } from './timeline-room';
import { describeRoom } from './timeline-room-text';
import { findingsIn, findingsWithin } from './timeline-rows';

/**
 * One room's card: its days from the first bin to the opening, its lots, findings and figures. `key` is a timeline
 * row's: a fill's identifier, or `room:` and a room's. Undefined for a key the plan does not have. `readings` are what
 * was read in each room, laid over its charts and watched; `watch` is for those who have watched them before.
 */
export function roomCard(
  season: ComputedSeason,
  findings: readonly Finding[],
  key: string,
  revision: number,
  readings?: ReadonlyMap<string, RoomReadings>,
  watch: WatchReadings = (fills, read) => recordMore(fills, undefined, read),
): RoomCard | undefined {
  const units = displayUnits(season.plan);
  const filled = season.filled.get(key);
  if (filled) return filledCard(season, findings, filled, { units, revision, readings, watch });
  const capacity = key.startsWith('room:') ? season.capacities.get(key.slice('room:'.length)) : undefined;
  return capacity && idleCard(season, findings, capacity, units, revision);
}

/** The key of the card of a fill, or of a room: of a room its first fill's. */
export function cardKeyOf(season: ComputedSeason, section: string, id: string): string | undefined {
  if (section === 'fills') return season.filled.has(id) ? id : undefined;
  if (section === 'lots')
    return [...season.filled.values()].find(({ lots }) => lots.some(({ lot }) => lot.id === id))?.fill.id;
  if (section !== 'rooms' || !season.capacities.has(id)) return undefined;
  return [...season.filled.values()].find(({ room }) => room.id === id)?.fill.id ?? `room:${id}`;
}

interface CardOptions {
  readonly units: DisplayUnits;
  readonly revision: number;
  readonly readings: ReadonlyMap<string, RoomReadings> | undefined;
  readonly watch: WatchReadings;
}

function filledCard(
  season: ComputedSeason,
  findings: readonly Finding[],
  filled: FilledRoom,
  { units, revision, readings, watch }: CardOptions,
): RoomCard {
  const { fill, room } = filled;
  const days = cardDays(season, filled);
  const labels = days ? dayLabels(days) : [];
  const opening = openingOf(season, filled);
  const keeping = season.keeping.get(fill.id);
  const own = findingsIn(findings, [fill, room, ...filled.lots.map(({ lot }) => lot)]);
  return {
    key: fill.id,
    revision,
    title: `Room ${room.id}: ${varietiesOf(filled).join(', ') || 'no lots yet'}`,
    description: describeRoom(
      {
        filled,
        window: keeping?.window,
        byConfidence: keeping && toldWindow(season.plan, keeping),
        opening,
        findings: findingsWithin(findings, [fill, room]),
      },
      season,
      units,
    ),
    target: fill.at,
    days: labels,
    months: monthsAmong(labels),
    events: days ? cardEvents(season, filled, days) : [],
    charts: days
      ? withReadings(
          roomCharts(season, filled, days, units),
          season,
          filled,
          days,
          readings?.get(room.id),
          units,
        )
      : [],
    facts: roomFacts(season, filled, units),
    lots: lotTable(season, filled, units),
    // What is seen in readings is told by the card itself, in fewer words.
    findings: [
      ...sightingsInRoom(season, filled, readings, watch, units),
      ...gravestFirst(own.filter(({ family }) => family !== 'readings')),
    ],
    notes: notesOf(season, filled, days !== undefined),
    caution,
  };
}

function idleCard(
  season: ComputedSeason,
  findings: readonly Finding[],
  capacity: RoomCapacity,
  units: DisplayUnits,
  revision: number,
): RoomCard {
  const { room } = capacity;
  return {
    key: `room:${room.id}`,
    revision,
    title: `Room ${room.id}`,
    description: `Room ${room.id}: nothing fills it in this plan.`,
    target: room.at,
    days: [],
    months: [],
    events: [],
    charts: [],
    facts: roomFacts(season, capacity, units),
    lots: { title: 'Lots', columns: LOT_COLUMNS, lines: [], none: 'Nothing fills the room.' },
    findings: gravestFirst(findingsIn(findings, [room])),
    notes: [],
    caution,
  };
}

const LOT_COLUMNS = [
  'Lot',
  'Variety',
  'Bins',
  'Picked',
  'Firmness',
  'Streif index',
  'Term',
  'Storage life',
  'Until',
  'Set by',
] as const;

function lotTable(season: ComputedSeason, filled: FilledRoom, units: DisplayUnits): CardTable {
  const keeping = new Map((season.keeping.get(filled.fill.id)?.lots ?? []).map((one) => [one.lot.id, one]));
  const line = (inRoom: LotInRoom) => {
    const { lot, bins } = inRoom;
    const kept = keeping.get(lot.id);
    return {
      cells: [
        lot.id,
        varietyName(inRoom),
        showFigure(bins, units).replace(/ bins?$/, ''),
        pickedText(lot),
        lot.maturity?.firmness ? showFigure(lot.maturity.firmness, units) : '',
        streifText(lot),
        kept?.term ?? '',
        kept ? showFigure(kept.storageLife, units) : '',
        kept ? formatWeek(kept.latest) : '',
        kept?.latestSetBy ?? '',
      ],
      target: lot.at,
    };
  };
  return {
    title: 'Lots',
    columns: LOT_COLUMNS,
    lines: filled.lots.map(line),
    none: 'The fill names no lots yet.',
  };
}

function pickedText({ picked }: Lot): string {
  if (!picked) return '';
  const { first, last } = picked.value;
  return first === last ? formatDay(first) : `${formatDay(first)} to ${formatDay(last)}`;
}

function streifText({ maturity }: Lot): string {
  const index = streifIndex(maturity);
  return index ? fixed(index.value, 2) : '';
}

const GRAVITY = { error: 0, warning: 1, notice: 2 } as const;

/** Findings as cards list them. */
export function gravestFirst(findings: readonly Finding[]): CardFinding[] {
  return [...findings]
    .sort((a, b) => GRAVITY[a.severity] - GRAVITY[b.severity])
    .map(({ severity, code, message, at }) => ({
      severity,
      code,
      message,
      target: { file: at.file, start: at.start, end: at.end },
    }));
}

function notesOf(season: ComputedSeason, { fill }: FilledRoom, hasDays: boolean): string[] {
  const course = season.courses?.courses.get(fill.id);
  if (course) return course.assumptions.map((text) => `Assumed: ${text}.`);
  if (!hasDays) return ['The fill has no dates to draw: give it `first-bin` and `last-bin`.'];
  if (!fill.sealed) return ['The room is kept in air: there is no gas to tell of.'];
  return [
    'No course of its gas: the plan lacks the room’s size, its regime, its fruit, or when the season ends.',
  ];
}
