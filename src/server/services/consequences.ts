import { shower, unitsOf } from '../../findings/say';
import { disorderTold, lotsOf, riskSentence, risksOf, riskWeeks } from '../../findings/say-disorders';
import type { ComputedSeason } from '../../findings/types';
import type { Disorder, Regime, StorageTerm, Variety } from '../../fruit/types';
import { disorderTitle } from '../../fruit/varieties/disorders';
import { streifIndex, termReason } from '../../keeping/maturity';
import type { LotKeeping, RoomKeeping, WindowEdge } from '../../keeping/types';
import { formatWeek } from '../../plan/dates';
import type { Figure } from '../../plan/figure';
import type { FilledRoom, RoomCapacity } from '../../room/types';
import type { Consequences } from './consequences-types';
import { demandOutcome } from './demand-outcome';
import { openedAndEmptied, scheduledWeek } from './lenses';
import type { Subject } from './subject';

/** What the plan's computation says about an entry; undefined where it says nothing. */
export function consequencesOf(season: ComputedSeason, subject: Subject): Consequences | undefined {
  const { id } = subject;
  switch (subject.section) {
    case 'rooms':
      return ofRoom(season, id);
    case 'fills':
      return ofFill(season, id);
    case 'lots':
      return ofLot(season, id);
    case 'varieties':
      return ofVariety(season, season.fruit.variety(id));
    case 'regimes':
      return ofRegime(season.fruit.regime(id));
    case 'bins':
      return ofBinType(season, id);
    case 'scrubbers':
      return ofScrubber(season, id);
    case 'nitrogen':
      return ofNitrogen(season, id);
    case 'refrigeration':
      return ofRefrigeration(season, id);
    case 'demand':
      return demandOutcome(season, id);
  }
}

function present(...figures: readonly (Figure | undefined)[]): Figure[] {
  return figures.filter((figure) => figure !== undefined);
}

function capacityFigures(capacity: RoomCapacity): Figure[] {
  const { places, placesByGeometry, volume, fruitWhenFull, pressureHalfLife, leakFlow } = capacity;
  const geometry = places === placesByGeometry ? undefined : placesByGeometry;
  return present(places, geometry, volume, fruitWhenFull, pressureHalfLife, leakFlow);
}

function ofRoom(season: ComputedSeason, id: string): Consequences | undefined {
  const capacity = season.capacities.get(id);
  if (!capacity) return undefined;
  const fills = [...season.filled.values()].filter(({ room }) => room.id === id);
  const happened = fills.map(({ fill }) => openedAndEmptied(season, fill.id));
  const sentences = fills.flatMap((filled, at) => [
    `Filled by \`${filled.fill.id}\`: ${contents(filled)}.`,
    ...asRecorded(happened[at]),
  ]);
  if (fills.length === 0) sentences.push('No fill uses this room.');
  const opening = happened.some((told) => told !== undefined);
  return { title: `Room ${id}`, figures: capacityFigures(capacity), sentences, ...(opening && { opening }) };
}

function asRecorded(happened: string | undefined): string[] {
  return happened === undefined ? [] : [`${happened[0]?.toUpperCase()}${happened.slice(1)}, as recorded.`];
}

function contents(filled: FilledRoom): string {
  const varieties = [...new Set(filled.lots.map(({ variety }) => variety.name))].join(', ') || 'no lots yet';
  const regime = filled.regime ? ` in ${filled.regime.name}` : '';
  return `${varieties}${regime}`;
}

function ofFill(season: ComputedSeason, id: string): Consequences | undefined {
  const filled = season.filled.get(id);
  if (!filled) return undefined;
  const keeping = season.keeping.get(id);
  const sentences = [`${contents(filled)[0]?.toUpperCase()}${contents(filled).slice(1)}.`];
  if (filled.nitrogenShortfall) sentences.push(filled.nitrogenShortfall);
  if (keeping?.window) sentences.push(...windowSentences(keeping), ...riskSentences(season, keeping));
  const happened = openedAndEmptied(season, id);
  sentences.push(...asRecorded(happened));
  const opens = happened === undefined ? scheduledWeek(season, id) : undefined;
  if (opens !== undefined)
    sentences.push(
      `The present schedule opens it in ${formatWeek(opens)}${filled.fill.open ? ' (pinned)' : ''}.`,
    );
  const { bins, fruit, utilisation, freeGasVolume, carbonDioxideInStore, nitrogenVolume, nitrogenHours } =
    filled;
  const { peakCooling, holdingCooling, leakShareOfFruitUse, limePerMonth } = filled;
  return {
    title: `Fill ${id}, room ${filled.room.id}`,
    figures: present(
      season.capacities.get(filled.room.id)?.places,
      bins,
      fruit,
      utilisation,
      freeGasVolume,
      carbonDioxideInStore,
      nitrogenVolume,
      nitrogenHours,
      peakCooling,
      holdingCooling,
      leakShareOfFruitUse,
      limePerMonth,
    ),
    sentences,
    opening: keeping?.window !== undefined || opens !== undefined || happened !== undefined,
  };
}

/** Disorders of highly susceptible varieties that nothing lessens here; the lots tell the others. */
function riskSentences(season: ComputedSeason, keeping: RoomKeeping): string[] {
  return risksOf(keeping, shower(season))
    .filter(({ risk }) => risk.disorder.susceptible === 'highly' && risk.eased === undefined)
    .map((one) => `${lotsOf(one)}: at risk of ${one.risk.title} ${riskWeeks(one.risk)}.`);
}

/** A fill's opening window, and what sets its edges. */
export function windowOf(season: ComputedSeason, fill: string): Consequences | undefined {
  const keeping = season.keeping.get(fill);
  if (!keeping?.window) return undefined;
  return {
    title: `Opening window of room ${keeping.filled.room.id}`,
    figures: [],
    sentences: windowSentences(keeping),
    opening: true,
  };
}

function windowSentences({ window }: RoomKeeping): string[] {
  if (!window) return [];
  const { earliest, latest, bestBefore } = window;
  const edge = ({ week, limit, lot }: WindowEdge) =>
    `${formatWeek(week)} (set by ${limit}${lot ? ` of lot ${lot.id}` : ''})`;
  if (earliest.week > latest.week)
    return [`It can be opened in no week: not before ${edge(earliest)}, and not after ${edge(latest)}.`];
  return [`Opening window ${edge(earliest)} to ${edge(latest)}; best before ${edge(bestBefore)}.`];
}

function ofLot(season: ComputedSeason, id: string): Consequences | undefined {
  const lot = season.plan.lots.get(id);
  if (!lot) return undefined;
  const stays = [...season.keeping.values()].flatMap((keeping) =>
    keeping.lots.filter((entry) => entry.lot.id === id).map((kept) => ({ kept, keeping })),
  );
  const suited = [...new Set(stays.flatMap(({ kept }) => suitedTo(kept, season) ?? []))];
  return {
    title: `Lot ${id}`,
    figures: present(lot.receivedBins ?? lot.expectedBins, streifIndex(lot.maturity)),
    // Its maturity is the lot's own: it is told once, however many rooms it lies in.
    sentences: stays.length === 0 ? ['No fill takes this lot.'] : suited,
    parts: stays.map(({ kept, keeping }) => ({
      title: `Room ${keeping.filled.room.id}, fill ${keeping.filled.fill.id}`,
      figures: [
        { label: 'bins', figure: kept.inRoom.bins },
        { label: 'fruit', figure: kept.inRoom.fruit },
        { label: 'storage life', figure: kept.storageLife },
        { label: 'its spread', figure: kept.spread },
      ],
      sentences: [
        `Within standard up to ${formatWeek(kept.latest)}, by its ${kept.latestSetBy}.`,
        ...kept.disorders.map((risk) => riskSentence(risk, risk.because(shower(season)), unitsOf(season))),
      ],
    })),
  };
}

const TERMS: Readonly<Record<StorageTerm, string>> = {
  long: 'long-term storage',
  mid: 'mid-term storage',
  short: 'short-term storage',
  air: 'sale from air',
};

function suitedTo(kept: LotKeeping, season: ComputedSeason): string | undefined {
  return kept.term && `Maturity suits ${TERMS[kept.term]}: ${termReason(kept, unitsOf(season))}.`;
}

function ofVariety(season: ComputedSeason, variety: Variety | undefined): Consequences | undefined {
  if (!variety) return undefined;
  const regimes = variety.regimes.length > 0 ? [`Built-in regimes: ${variety.regimes.join(', ')}.`] : [];
  return {
    title: `${variety.name}, ${variety.fruit}`,
    figures: present(
      ...variety.respiration.map(({ rate }) => rate),
      variety.respirationInStore.expected,
      variety.storageLifeInAir,
      variety.storageLife,
      variety.leastTemperature,
      variety.freezesAt,
      variety.leastOxygen,
      variety.oxygenBreakpoint,
      variety.mostCarbonDioxide,
      variety.leastExitFirmness,
      variety.softening,
    ),
    sentences: [...regimes, ...variety.disorders.map((one) => disorderText(season, one))],
  };
}

function disorderText(season: ComputedSeason, disorder: Disorder): string {
  const { source } = disorder;
  const title = disorderTitle(disorder.id);
  const told = disorderTold(disorder, unitsOf(season));
  return `${title[0]?.toUpperCase()}${title.slice(1)}: ${told} (${source.known}: ${source.citation})`;
}

function ofRegime(regime: Regime | undefined): Consequences | undefined {
  if (!regime) return undefined;
  const { temperature, oxygen, carbonDioxide, humidity, storageLife, softening, conditioning } = regime;
  return {
    title: `Regime ${regime.name}`,
    figures: present(
      temperature,
      oxygen,
      carbonDioxide,
      humidity,
      storageLife,
      softening,
      conditioning?.temperature,
      conditioning?.lasts,
    ),
    sentences: [
      ...(oxygen ? [] : ['Kept in air.']),
      ...(regime.varieties.length > 0 ? [`For ${regime.varieties.join(', ')}.`] : []),
    ],
  };
}

function ofBinType(season: ComputedSeason, id: string): Consequences | undefined {
  const binType = season.plan.binTypes.get(id);
  if (!binType) return undefined;
  const rooms = [...season.plan.rooms.values()].filter((room) => room.binType?.value === id);
  return {
    title: `Bin type ${id}`,
    figures: present(binType.length, binType.width, binType.height, binType.netFruit, binType.tare),
    sentences: [`Rooms stacked with it: ${rooms.map((room) => room.id).join(', ') || 'none'}.`],
  };
}

function ofScrubber(season: ComputedSeason, id: string): Consequences | undefined {
  const found = season.plant?.scrubbers.find(({ scrubber }) => scrubber.id === id);
  if (!found) return undefined;
  const { peak, rooms, capacity, settlesAt } = found;
  const sentences = [roomsServed(rooms)];
  if (peak) sentences.push(`Its heaviest week is ${formatWeek(peak.week)}.`);
  return {
    title: `Scrubber ${id}`,
    figures: present(capacity, peak?.load, peak?.share, settlesAt),
    sentences,
  };
}

function ofNitrogen(season: ComputedSeason, id: string): Consequences | undefined {
  const found = season.plant?.nitrogen.find(({ source }) => source.id === id);
  if (!found) return undefined;
  const peak = highest(found.weeks, ({ hours }) => hours.value);
  const sentences = [roomsServed(found.rooms)];
  if (peak) sentences.push(`Its heaviest week is ${formatWeek(peak.week)}.`);
  return { title: `Nitrogen source ${id}`, figures: present(peak?.hours, peak?.share), sentences };
}

function ofRefrigeration(season: ComputedSeason, id: string): Consequences | undefined {
  const found = season.plant?.refrigeration.find(({ group }) => group.id === id);
  if (!found) return undefined;
  const peak = highest(found.weeks, ({ load }) => load.value);
  const sentences = [roomsServed(found.rooms)];
  if (peak) sentences.push(`Its heaviest week is ${formatWeek(peak.week)}.`);
  return {
    title: `Refrigeration group ${id}`,
    figures: present(found.group.capacity, peak?.load, peak?.share),
    sentences,
  };
}

function roomsServed(rooms: readonly FilledRoom[]): string {
  return `Rooms it serves: ${rooms.map(({ room }) => room.id).join(', ') || 'none'}.`;
}

function highest<T>(items: readonly T[], value: (item: T) => number): T | undefined {
  return items.reduce<T | undefined>(
    (best, item) => (best === undefined || value(item) > value(best) ? item : best),
    undefined,
  );
}
