import type { Day, Week } from './dates';
import type { Entry } from './entry';
import type { Expectation } from './expect-model';
import type { Figure, HowKnown } from './figure';
import type { LearnedOfLot, OwnFirmness } from './learned-model';
import type { Demand, Packing, Packout } from './market-model';
import type {
  CarbonLoading,
  MembraneSelectivity,
  NitrogenSource,
  OutOfUse,
  RefrigerationGroup,
  Scrubber,
  ScrubberBeds,
} from './plant-model';
import type { Problem } from './problem';
import type { LateRecord, PackedRun, Progress, Sale, Sample } from './record-model';
import type { Allowance, Reference } from './reference-model';
import type { Scenario } from './scenario-model';
import type { Given, PlaceNode, Span } from './span';
import type { ReadingsLayout, TableLayout } from './table-model';

/**
 * The plan as read: every value typed, in the tool's own units, with its place. Half-typed text is the normal state
 * of an editor, so anything but an entry's identifier may be missing; what was missing or wrong is in `problems`.
 */
export interface Plan {
  readonly files: ReadonlyMap<string, PlanText>;
  readonly season: Season | undefined;
  readonly binTypes: ReadonlyMap<string, BinType>;
  readonly rooms: ReadonlyMap<string, Room>;
  readonly scrubbers: ReadonlyMap<string, Scrubber>;
  readonly nitrogenSources: ReadonlyMap<string, NitrogenSource>;
  readonly refrigerationGroups: ReadonlyMap<string, RefrigerationGroup>;
  readonly varieties: ReadonlyMap<string, VarietyOverride>;
  readonly regimes: ReadonlyMap<string, RegimeOverride>;
  readonly lots: ReadonlyMap<string, Lot>;
  readonly fills: ReadonlyMap<string, Fill>;
  readonly demand: ReadonlyMap<string, Demand>;
  readonly expectations: ReadonlyMap<string, Expectation>;
  readonly scenarios: ReadonlyMap<string, Scenario>;
  /** How files are laid out that are taken in. */
  readonly tables: ReadonlyMap<string, TableLayout>;
  /** Files of readings that stay beside the plan. */
  readonly readings: ReadonlyMap<string, ReadingsLayout>;
  /** What has happened to fills, by the fill's identifier. */
  readonly progress: ReadonlyMap<string, Progress>;
  readonly samples: ReadonlyMap<string, Sample>;
  readonly packed: ReadonlyMap<string, PackedRun>;
  readonly sales: ReadonlyMap<string, Sale>;
  /** The day it is looked at from: records that were made later are not in it. Absent: all are. */
  readonly asOf?: Day;
  /** The last day that is known of it; absent before what has happened is put in the place of what was planned. */
  readonly stand?: Day;
  /** Records whose day cannot be: they are not in it. Only where there are any, once what has happened is in its place. */
  readonly tooLate?: readonly LateRecord[];
  /** The units all that is said of it is told in, where others are asked for than its season says. */
  readonly toldIn?: 'metric' | 'us';
  readonly packing: Packing | undefined;
  readonly policy: Policy;
  /** Every place where an entry is named, for go to definition, references and rename. */
  readonly references: readonly Reference[];
  /** Findings allowed at a place by a comment with a reason. */
  readonly allowances: readonly Allowance[];
  /** What reading found wrong: syntax, schema, duplicates. Unknown references are rules, not reading. */
  readonly problems: readonly Problem[];
}

/** A file's text and the offsets at which its lines begin. */
export interface PlanText {
  readonly path: string;
  readonly text: string;
  readonly lineStarts: readonly number[];
}

export interface Season {
  readonly at: Span;
  readonly places: PlaceNode;
  readonly name: Given<string> | undefined;
  readonly starts: Given<Day> | undefined;
  readonly ends: Given<Day> | undefined;
  readonly units: 'metric' | 'us';
  readonly cartonMass: Figure<'kg'> | undefined;
  readonly currency: string;
  /** For a kilowatt-hour. */
  readonly powerPrice?: Figure<'money'> | undefined;
  readonly outsideTemperature: Figure<'degC'>;
  readonly outsideHumidity?: Figure<'%'> | undefined;
}

export interface BinType extends Entry {
  readonly length: Figure<'m'> | undefined;
  readonly width: Figure<'m'> | undefined;
  readonly height: Figure<'m'> | undefined;
  readonly netFruit: Figure<'kg'> | undefined;
  readonly tare: Figure<'kg'> | undefined;
  readonly material: 'wood' | 'plastic' | undefined;
  /** What one bin's material takes up; from its mass where left out. */
  readonly solidVolume?: Figure<'m3'> | undefined;
  readonly specificHeat?: Figure<'kJ/kgK'> | undefined;
}

export interface Room extends Entry {
  /** What cooler, ducts and pillars take up. */
  readonly equipmentVolume?: Figure<'m3'> | undefined;
  readonly length: Figure<'m'> | undefined;
  readonly width: Figure<'m'> | undefined;
  readonly height: Figure<'m'> | undefined;
  readonly binType: Given<string> | undefined;
  readonly statedPlaces: Figure<'places'> | undefined;
  readonly stack: Figure<'bins'> | undefined;
  readonly wallClearance: Figure<'m'>;
  readonly ceilingClearance: Figure<'m'>;
  readonly binGap: Figure<'m'>;
  readonly lostPlaces: Figure<'places'>;
  readonly coolerCapacity: Figure<'kW'> | undefined;
  readonly refrigerationGroup: Given<string> | undefined;
  /** Time in which fruit comes half the way to the room, where it was measured. */
  readonly coolingHalfTime?: Figure<'h'> | undefined;
  /** Lag factor of the fruit's cooling, 1 or more. */
  readonly coolingLag?: Figure<'1'> | undefined;
  /** Power that the cooler's fans take at full circulation. */
  readonly fanPower?: Figure<'kW'> | undefined;
  /** Share of it that they take when the room holds its fruit. */
  readonly fansHolding?: Figure<'%'> | undefined;
  /** Rated power of the fans' motors. */
  readonly fanMotors?: Figure<'kW'> | undefined;
  /** Between the room's air and the surface of the cooler's coil while holding. */
  readonly coilDifference?: Figure<'K'> | undefined;
  readonly loading?: Loading | undefined;
  readonly heatTransfer: Figure<'W/m2K'>;
  readonly tightness: TightnessTest | undefined;
  /** Air by leaks and weather together, as measured in service. */
  readonly leakInService?: Figure<'m3/h'> | undefined;
  readonly breatherBag?: Figure<'m3'> | undefined;
  readonly scrubber: Given<string> | undefined;
  readonly nitrogen: Given<string> | undefined;
  readonly law: 'washington' | 'new-york' | 'none';
  readonly ready: Given<Day> | undefined;
}

/** What gives off heat in a room while it is filled. */
export interface Loading {
  readonly at: Span;
  readonly lights: Figure<'kW'> | undefined;
  readonly vehicles: Figure<'1'> | undefined;
  /** Of each vehicle at work. */
  readonly vehicleHeat: Figure<'kW'> | undefined;
  readonly people: Figure<'1'> | undefined;
  readonly hoursADay: Figure<'h'> | undefined;
}

export interface TightnessTest {
  readonly at: Span;
  readonly from: Figure<'Pa'>;
  readonly to: Figure<'Pa'>;
  readonly after: Figure<'min'>;
  readonly tested?: Given<Day> | undefined;
}

/** The planner's own values for a variety; what is undefined comes from the built-in reference data. */
export interface VarietyOverride extends Entry {
  readonly like: Given<string> | undefined;
  readonly respiration:
    | readonly { readonly at: Figure<'degC'>; readonly rate: Figure<'mg/kg/h'> }[]
    | undefined;
  readonly respirationInStore: Figure<'1'> | undefined;
  readonly respiratoryQuotient?: Figure<'1'> | undefined;
  /** Nanograms of water for each kilogram of fruit, second and pascal. */
  readonly transpiration?: Figure<'1'> | undefined;
  readonly specificHeat?: Figure<'kJ/kgK'> | undefined;
  readonly density?: Figure<'kg/m3'> | undefined;
  readonly storageLifeInAir: Figure<'days'> | undefined;
  readonly storageLife: Figure<'days'> | undefined;
  /** By how much this season's fruit keeps shorter, in every regime. */
  readonly keepsShorter?: Figure<'days'> | undefined;
  readonly leastTemperature: Figure<'degC'> | undefined;
  readonly leastOxygen: Figure<'%'> | undefined;
  readonly oxygenBreakpoint?: Figure<'%'> | undefined;
  readonly mostCarbonDioxide: Figure<'%'> | undefined;
  readonly leastExitFirmness: Figure<'N'> | undefined;
  /** Firmness lost in a month, newtons. */
  readonly softening: Figure<'N/month'> | undefined;
  /** What the planner says of its disorders. */
  readonly disorders?: readonly OwnDisorder[];
  readonly source: string | undefined;
}

/** Disorders of stored fruit that the tool knows of. */
export type DisorderId =
  | 'carbon-dioxide-injury'
  | 'low-oxygen-injury'
  | 'chilling-injury'
  | 'scald'
  | 'senescent-scald'
  | 'soft-scald'
  | 'browning'
  | 'bitter-pit';

/** The planner's own word on a disorder: not watched for, or when it comes and when the fruit is packed because of it. */
export interface OwnDisorder {
  readonly id: DisorderId;
  readonly watched: boolean;
  readonly from: Figure<'days'> | undefined;
  readonly until: Figure<'days'> | undefined;
  readonly packedBy: Figure<'days'> | undefined;
}

export interface RegimeOverride extends Entry {
  readonly like: Given<string> | undefined;
  readonly varieties: readonly Given<string>[] | undefined;
  readonly temperature: Figure<'degC'> | undefined;
  readonly oxygen: Figure<'%'> | undefined;
  readonly carbonDioxide: Figure<'%'> | undefined;
  readonly humidity: Figure<'%'> | undefined;
  readonly storageLife: Figure<'days'> | undefined;
  readonly conditioning: { readonly temperature: Figure<'degC'>; readonly lasts: Figure<'days'> } | undefined;
  readonly stages?: readonly RegimeStage[] | undefined;
  readonly source: string | undefined;
}

/** Set-points from some days after sealing to the next stage; the regime's own hold where one is left out. */
export interface RegimeStage {
  readonly from: Figure<'days'>;
  readonly oxygen?: Figure<'%'> | undefined;
  readonly carbonDioxide?: Figure<'%'> | undefined;
  readonly temperature?: Figure<'degC'> | undefined;
}

export type StarchScale = 'one-to-eight' | 'one-to-ten' | 'one-to-six';
export type Treatment = '1-mcp' | 'antioxidant' | 'fungicide' | 'calcium';

export interface Lot extends Entry, LearnedOfLot {
  readonly variety: Given<string> | undefined;
  readonly block: string | undefined;
  readonly grower: string | undefined;
  /** First and last day of picking. */
  readonly picked: Given<{ readonly first: Day; readonly last: Day }> | undefined;
  readonly expectedBins: Figure<'bins'> | undefined;
  /** All that came in: the sum of `receivedByDay` where that is given, once picking is over. */
  readonly receivedBins: Figure<'bins'> | undefined;
  readonly receivedByDay?: ReadonlyMap<Day, number> | undefined;
  readonly fieldTemperature: Figure<'degC'>;
  readonly maturity: Maturity | undefined;
  readonly treatments: readonly Given<Treatment>[];
  /** Days after picking within which its bins that are in no fill are packed, never stored. */
  readonly packedAtHarvest?: Figure<'days'> | undefined;
  /** The lot as it is written, where its receipts have made it another. */
  readonly planned?: Lot;
}

export interface Maturity {
  readonly at: Span;
  readonly tested: Given<Day> | undefined;
  readonly starch: Figure<'1'> | undefined;
  readonly starchScale: StarchScale;
  readonly firmness: Figure<'N'> | undefined;
  readonly solubleSolids: Figure<'%'> | undefined;
  readonly ethylene: Figure<'ppm'> | undefined;
}

export interface Fill extends Entry {
  readonly room: Given<string> | undefined;
  readonly regime: Given<string> | undefined;
  readonly firstBin: Given<Day> | undefined;
  readonly lastBin: Given<Day> | undefined;
  /** Undefined for a room kept in air. */
  readonly sealed: Given<Day> | undefined;
  readonly lots: readonly FillLot[];
  /** The bins of one of its lots could not be read; it is not among the lots then. */
  readonly hasUnreadLots?: boolean;
  /** Respiration in the atmosphere as a share of what the varieties give. */
  readonly respiration?: Figure<'1'> | undefined;
  /** Markets its cartons are kept for; none named means all. */
  readonly forMarkets?: readonly Given<string>[];
  /** The pinned opening week. */
  readonly open: Given<Week> | undefined;
  /** The day its seal was broken; `open` is that day's week then. */
  readonly opened?: Given<Day>;
  /** No opening is recorded: `opened` is the first day of its packing, by which it was open at the latest. */
  readonly openedByPacking?: true;
  /** The day its last bin left the room. */
  readonly emptied?: Given<Day>;
  /** The fill as it was planned, where its progress has made it another. */
  readonly planned?: Fill;
}

export interface FillLot {
  /** The lot's identifier, at the key. */
  readonly lot: Given<string>;
  readonly bins: Figure<'bins'>;
}

/** Apart: no other grower's fruit in the room. Together: in as few rooms as can be. */
export type GrowerWish = 'apart' | 'together' | 'any';

export interface Policy {
  readonly at: Span | undefined;
  readonly places: PlaceNode | undefined;
  readonly confidence: Figure<'%'>;
  readonly roomsOpenAtOnce: Figure<'1'> | undefined;
  readonly intakeADay: Figure<'%'>;
  /** In every room that does not say so itself. */
  readonly loading?: Loading | undefined;
  readonly mostScrubberLoad: Figure<'%'>;
  /** When a fill's bins come into its room; as picked where left out. */
  readonly arrivals?: 'as-picked' | 'evenly' | undefined;
  /** The planner's own values for what the tool would assume. */
  readonly assumptions?: OwnAssumptions | undefined;
  /** Fills of which the first opens in an earlier week than the second. */
  readonly openBefore?: readonly OpenBefore[];
  /** Money for each week a room is moved from the last published schedule; by default a share of its worth. */
  readonly priceOfChange?: Figure<'money'> | undefined;
  /** Money for each bin by which a week of packing differs from the working week before. */
  readonly priceOfUnevenWork?: Figure<'money'> | undefined;
  /** Money for each bin of a room in air for each week that it waits to open. */
  readonly priceOfWeekInAir?: Figure<'money'> | undefined;
  readonly uncertainty?: Uncertainty;
  /** How growers' fruit is put into rooms, by grower; `all` for those not named. */
  readonly growers?: ReadonlyMap<string, Given<GrowerWish>>;
  /** From how much on a difference is told where two plans are compared. */
  readonly compare?: CompareThresholds | undefined;
  /** Severity by rule code, as the planner set it. */
  readonly findings: ReadonlyMap<string, Given<'error' | 'warning' | 'notice' | 'off'>>;
}

/** Least differences that are told by themselves, as far as the planner sets them. */
export interface CompareThresholds {
  readonly weeks?: Figure<'weeks'> | undefined;
  readonly cartons?: Figure<'cartons'> | undefined;
  readonly bins?: Figure<'bins'> | undefined;
  readonly load?: Figure<'%'> | undefined;
  readonly value?: Figure<'%'> | undefined;
}

/** Of the engineer's assumptions for all rooms, those that the plan states. */
export interface OwnAssumptions {
  /** Joules for each milligram of carbon dioxide. */
  readonly heatPerMilligram?: Figure<'1'> | undefined;
  readonly limeUtilisation?: Figure<'%'> | undefined;
  readonly servicePressure?: Figure<'Pa'> | undefined;
  readonly barometerRise?: Figure<'Pa'> | undefined;
  readonly airChangesLoading?: Figure<'1'> | undefined;
  readonly airChangesHolding?: Figure<'1'> | undefined;
  readonly humidityAtFruit?: Figure<'%'> | undefined;
  readonly stepDownADay?: Figure<'K'> | undefined;
  readonly daysToCold?: Figure<'days'> | undefined;
}

/** Two fills by identifier. */
export interface OpenBefore {
  readonly first: Given<string>;
  readonly later: Given<string>;
}

/** Per cent either side of the plan within which nine seasons of ten lie. */
export interface Uncertainty {
  readonly crop: Figure<'%'>;
  readonly storageLife: Figure<'%'>;
  readonly packout: Figure<'%'>;
  readonly demand: Figure<'%'>;
}

export type {
  Allowance,
  CarbonLoading,
  Demand,
  Entry,
  Expectation,
  HowKnown,
  MembraneSelectivity,
  NitrogenSource,
  OutOfUse,
  OwnFirmness,
  PackedRun,
  Packing,
  Packout,
  Progress,
  Reference,
  RefrigerationGroup,
  Sale,
  Sample,
  Scenario,
  Scrubber,
  ScrubberBeds,
};
