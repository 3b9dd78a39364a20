import { type Day, formatDay, formatWeek, weekOfDay } from '../plan/dates';
import { plainText } from '../plan/edits';

/** What a new plan is made from: all that cannot be guessed. */
export interface NewPlan {
  readonly name: string;
  readonly units: 'metric' | 'us';
  /** The first day of harvest. */
  readonly harvest: Day;
}

const METRIC = {
  carton: '18 kg',
  outside: '18 °C',
  bin: 'outside: { length: 1.20 m, width: 1.00 m, height: 0.78 m }',
  fruit: '300 kg',
  tare: '38 kg',
  room: '{ length: 13.1 m, width: 5.9 m, height: 5.8 m }',
  cooler: '18 kW',
  group: '40 kW',
  test: '{ from: 250 Pa, to: 125 Pa, after: 30 min }',
  removal: '20 kg/day',
  flow: '60 m3/h',
  field: '18 °C',
  firmness: '82 N',
  material: 'plastic',
};

const US: typeof METRIC = {
  carton: '40 lb',
  outside: '64 °F',
  bin: 'outside: { length: 48 in, width: 48 in, height: 29 in }',
  fruit: '880 lb',
  tare: '140 lb',
  room: '{ length: 43 ft, width: 27 ft, height: 20 ft }',
  cooler: '6 TR',
  group: '12 TR',
  test: '{ from: 1 inH2O, to: 0.5 inH2O, after: 30 min }',
  removal: '44 lb/day',
  flow: '36 ft3/min',
  field: '64 °F',
  firmness: '18.4 lbf',
  material: 'wood',
};

/** Weeks from the first day of harvest to the season's last. */
const SEASON_WEEKS = 40;

/**
 * A first plan to be written over: one room, one lot, one fill and one demand, with a note beside each on what stands
 * there. It reads without an error as it is.
 */
export function newPlanText({ name, units, harvest }: NewPlan): string {
  const own = units === 'us' ? US : METRIC;
  const day = (after: number) => formatDay(harvest + after);
  const week = (after: number) => formatWeek(weekOfDay(harvest) + after);
  const bins = units === 'us' ? 220 : 280;
  return `# ${name.replace(/\s+/g, ' ').trim()}
# A first plan to write over: the values are examples, yours go in their place. Every quantity carries its unit, days
# are written 2026-09-07, weeks 2026-W37. You may split it into as many files as you like: all that end in
# .lotplan.yaml in this folder are one plan.
lotwright: 1

season:
  name: ${plainText(name.replace(/\s+/g, ' ').trim())}
  starts: ${day(0)}
  ends: ${day(7 * SEASON_WEEKS - 1)}
  units: ${units}
  carton: ${own.carton} # net fruit in one packed carton
  outside-temperature: ${own.outside} # in the weeks of harvest

bins:
  bin:
    ${own.bin}
    net-fruit: ${own.fruit}
    tare: ${own.tare}
    material: ${own.material}

# One entry for each room. Places follow from size and stacking; write \`places: 240\` where you have counted them.
rooms:
  R1:
    inside: ${own.room}
    bin-type: bin
    lost-places: 5 # under the cooler, at the door
    refrigeration: { capacity: ${own.cooler}, group: plant }
    tightness: ${own.test} # the last pressure test
    scrubber: S1
    nitrogen: N1

plant:
  scrubbers:
    S1: { kind: carbon, removal: ${own.removal}, at-level: 3 % }
  nitrogen:
    N1: { kind: membrane, flows: [{ purity: 97 %, flow: ${own.flow} }, { purity: 99 %, flow: ${halved(own.flow)} }] }
  refrigeration:
    plant: { capacity: ${own.group} }

# One entry for each block's fruit of one picking. \`bins\` is the estimate; once \`received\` is written, it counts.
lots:
  L1:
    variety: Gala
    picked: ${day(0)}..${day(9)}
    bins: ${bins}
    field-temperature: ${own.field}
    maturity: { starch: 2.8, firmness: ${own.firmness} } # starch from 1, none gone, to 8, all gone

# Which lots go into which room, in which regime. A hundred regimes are built in, and you may write your own.
fills:
  R1-gala:
    room: R1
    regime: gala-standard
    first-bin: ${day(0)}
    last-bin: ${day(11)}
    sealed: ${day(13)}
    lots: { L1: ${bins} }
    # open: ${week(18)} would pin the week; without it Lotwright looks for the best one

# What is wanted each week.
demand:
  gala:
    market: home
    variety: Gala
    class: first
    weeks: ${week(16)}..${week(19)}
    cartons: 650
    price: 22

packing:
  bins-a-week: 120
  days-to-empty: 28 days # in which an opened room is packed out
  packout:
    Gala: { shares: { first: 62 %, second: 18 % } }
`;
}

/** Half the flow at the higher purity: as a machine gives purer gas it gives less of it. */
function halved(flow: string): string {
  return flow.replace(/^\d+/, (number) => String(Number(number) / 2));
}
