import { flowLines, groupBy } from './text';
import type { GeneratedDemand } from './types';
import { type Kind, kinds } from './varieties';

/** Weeks on one line of a week table: about a month. */
const WEEKS_A_LINE = 5;

/** What the markets want, a table of weeks for each. */
export function demandText(demands: readonly GeneratedDemand[], weekLabels: readonly string[]): string {
  const byVariety = groupBy(demands, (demand) => demand.variety);
  const blocks = [...byVariety].map(
    ([variety, own]) => `  # ${variety}\n${own.map((demand) => entry(demand, weekLabels)).join('\n')}`,
  );
  return `# What the customers want, in cartons a week. \`cartons\` is a usual week of the programme; the weeks below it differ.
# home: retail programmes; export: overseas, better fruit and tighter on firmness; wholesale: second class.
lotwright: 1

demand:
${blocks.join('\n\n')}
`;
}

function entry(demand: GeneratedDemand, weekLabels: readonly string[]): string {
  const label = (index: number) => weekLabels[demand.firstWeek + index] as string;
  const usual = median(demand.cartons);
  const differing = demand.cartons
    .map((cartons, index) => ({ week: label(index), cartons }))
    .filter(({ cartons }) => cartons !== usual);
  const width = String(Math.max(...demand.cartons)).length;
  const lines: string[] = [];
  for (let index = 0; index < differing.length; index += WEEKS_A_LINE) {
    const line = differing
      .slice(index, index + WEEKS_A_LINE)
      .map(({ week, cartons }) => `${week}: ${String(cartons).padStart(width)}`)
      .join(', ');
    lines.push(line);
  }
  return [
    `  ${demand.id}:`,
    `    market: ${demand.market}`,
    `    variety: ${demand.variety}`,
    `    class: ${demand.packClass}`,
    `    weeks: ${label(0)}..${label(demand.cartons.length - 1)}`,
    `    cartons: ${usual}`,
    ...(lines.length === 0 ? [] : [flowLines('    by-week: { ', lines)]),
    `    price: ${demand.price.toFixed(2)}`,
    ...(demand.leastFirmness === undefined ? [] : [`    least-firmness: ${demand.leastFirmness} N`]),
  ].join('\n');
}

function median(numbers: readonly number[]): number {
  return [...numbers].sort((a, b) => a - b)[Math.floor(numbers.length / 2)] as number;
}

/** The packhouse. */
export function packingText(binsAWeek: number): string {
  const packout = kinds.map((kind) => `    ${packoutLine(kind)}`).join('\n');
  return `# The packhouse: two lines, five days a week, one shift and a half.
lotwright: 1

packing:
  bins-a-week: ${binsAWeek}
  days-a-week: 5
  closed:
    - 2026-10-26 # public holiday
    - 2026-12-24..2026-12-27 # Christmas
    - 2026-12-31..2027-01-03 # new year
    - 2027-03-26..2027-03-29 # Easter
    - 2027-05-06 # Ascension
    - 2027-05-17 # Whit Monday
  days-to-empty: 21 days
  packed-wait: 14 days
  cost-of-waiting: 0.15
  processing-price: 3
  # Shares at harvest; each month in store takes a little. The rest goes for juice.
  packout:
${packout}
`;
}

function packoutLine(kind: Kind): string {
  const { first, second, lossAMonth } = kind.packout;
  return `${`${kind.name}:`.padEnd(18)}{ shares: { first: ${first} %, second: ${second} % }, loss-a-month: ${lossAMonth.toFixed(1)} % }`;
}
