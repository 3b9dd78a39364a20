import type { Day } from '../../src/plan/dates';
import type { Kind } from './varieties';

export type Building = 'N' | 'E' | 'W';

/** A room before and after it has been given its fruit. */
export interface GeneratedRoom {
  readonly id: string;
  readonly building: Building;
  readonly lowCarbonDioxide: boolean;
  readonly length: number;
  readonly width: number;
  readonly height: number;
  readonly lostPlaces: number;
  readonly places: number;
  /** True where the places are written in the plan as counted. */
  readonly counted: boolean;
  readonly scrubber: string;
  readonly nitrogen: string;
  readonly halfLife: number;
  readonly tested: Day;
}

/** What a room's fruit is picked for; `air` and `short` are the ripest. */
export type Role = 'air' | 'long' | 'mid' | 'short';

export interface GeneratedLot {
  readonly id: string;
  readonly kind: Kind;
  readonly block: string;
  readonly grower: string;
  readonly first: Day;
  readonly last: Day;
  readonly bins: number;
  readonly expected: number;
  readonly received: boolean;
  readonly fieldTemperature: number;
  readonly maturity: GeneratedMaturity | undefined;
  readonly treatments: readonly string[];
  readonly note: string | undefined;
}

export interface GeneratedMaturity {
  readonly tested: Day;
  readonly starch: number;
  readonly firmness: number;
  readonly solubleSolids: number;
}

export interface GeneratedFill {
  readonly id: string;
  readonly kind: Kind;
  readonly room: GeneratedRoom;
  readonly role: Role;
  readonly regime: string;
  readonly first: Day;
  readonly last: Day;
  readonly sealed: Day | undefined;
  /** Bins by lot; a lot may be split over two rooms. */
  readonly lots: Map<string, number>;
  readonly open: string | undefined;
  readonly note: string | undefined;
}

export interface GeneratedDemand {
  readonly id: string;
  readonly market: string;
  readonly variety: string;
  readonly packClass: 'first' | 'second';
  /** Cartons of each week, from the first week of selling. */
  readonly firstWeek: number;
  readonly cartons: readonly number[];
  readonly price: number;
  readonly leastFirmness: number | undefined;
}
