import type { StorageTerm, Variety } from '../fruit/types';
import { type DisplayUnits, fixedApart, measure, unitLabel } from '../plan/display';
import { compute, countedFigure, type Figure, type Source } from '../plan/figure';
import type { Lot, Maturity, StarchScale } from '../plan/model';
import type { LotInRoom } from '../room/types';

/** The term a lot's maturity suits, and why in words, which are made when somebody asks. */
export interface TermDecision {
  readonly term: StorageTerm | undefined;
  readonly reason: (units: DisplayUnits) => string;
}

/** Terms from the longest to the shortest. */
const ORDER: readonly StorageTerm[] = ['long', 'mid', 'short', 'air'];

/** The highest index of each scale: no starch is left. The lowest is 1 on all of them. */
export const TOP_OF_SCALE: Readonly<Record<StarchScale, number>> = {
  'one-to-eight': 8,
  'one-to-ten': 10,
  'one-to-six': 6,
};

/**
 * A starch index on the one-to-eight scale of the Cornell chart. All scales start at 1 for the most starch; between
 * their ends they are taken to run alike, which is common practice and not exact.
 */
export function starchOneToEight(index: number, scale: StarchScale): number {
  return scale === 'one-to-eight' ? index : 1 + ((index - 1) * 7) / (TOP_OF_SCALE[scale] - 1);
}

/**
 * The storage term that firmness and starch at harvest suit, by Michigan State University Extension, Checking apple
 * maturity, Table 1. The weaker of the two decides. Internal ethylene above 1 ppm, past which ripening runs away
 * (DeEll 2012, OMAFRA Factsheet 12-045), rules out long storage.
 */
export function termOf(maturity: Maturity | undefined, variety: Variety): TermDecision {
  if (!maturity) return { term: undefined, reason: () => 'no maturity test' };
  const table = variety.maturityByTerm;
  if (!table) return { term: undefined, reason: () => `no table of harvest maturity for ${variety.name}` };
  const firmness = rankByFirmness(maturity, table.firmness);
  const starch = rankByStarch(maturity, table.starch);
  const ethylene = rankByEthylene(maturity);
  const term = ORDER[Math.max(firmness, starch, ethylene)];
  if (!term) return { term, reason: () => 'the maturity test gives neither firmness nor starch' };
  return { term, reason: (units) => reasons(maturity, table, [firmness, starch, ethylene], units) };
}

/** Why a lot's maturity suits its term, in words. */
export function termReason(
  { lot, inRoom }: { readonly lot: Pick<Lot, 'maturity'>; readonly inRoom: Pick<LotInRoom, 'variety'> },
  units: DisplayUnits,
): string {
  return termOf(lot.maturity, inRoom.variety).reason(units);
}

const streifSource: Source = {
  citation:
    'Streif index: firmness (kgf times 9.81, which is newtons) over soluble solids (%) times starch (one to ten), NIAB Apple Best Practice Guide, https://www.niab.com/node/2538',
  known: 'published',
};

/**
 * Ratio of firmness to soluble solids and starch: it falls as fruit ripens. Undefined where the test lacks one of the
 * three. Starch on another scale is drawn out to one-to-ten as in `starchOneToEight`.
 */
export function streifIndex(maturity: Maturity | undefined): Figure<'1'> | undefined {
  const { firmness, solubleSolids, starch: read, starchScale } = maturity ?? {};
  if (!firmness || !solubleSolids || !read || !starchScale) return undefined;
  const index = compute(
    'Streif index',
    '1',
    'firmness / (solubleSolids * starch)',
    { firmness, solubleSolids, starch: starchOneToTen(read, starchScale) },
    (v) => v.firmness / (v.solubleSolids * v.starch),
    streifSource,
  );
  return Number.isFinite(index.value) ? index : undefined;
}

function starchOneToTen(starch: Figure<'1'>, scale: StarchScale): Figure<'1'> {
  if (scale === 'one-to-ten') return starch;
  const top = countedFigure('top of the scale it was read on', '1', TOP_OF_SCALE[scale], 'the starch chart');
  return compute(
    'starch on the scale of one to ten',
    '1',
    '1 + (starch - 1) * 9 / (top - 1)',
    { starch, top },
    (v) => 1 + ((v.starch - 1) * 9) / (v.top - 1),
  );
}

type Thresholds = NonNullable<Variety['maturityByTerm']>;

/** The place in `ORDER` of the term that a test suits; none where it was not made, or says nothing. */
const NOT_SAID = -1;
const [LONG, MID, SHORT, AIR] = [0, 1, 2, 3] as const;

function rankByFirmness({ firmness }: Maturity, { long, mid, short }: Thresholds['firmness']): number {
  if (!firmness) return NOT_SAID;
  if (reaches(firmness.value, long.value)) return LONG;
  if (reaches(firmness.value, mid.value)) return MID;
  return reaches(firmness.value, short.value) ? SHORT : AIR;
}

function rankByStarch({ starch, starchScale }: Maturity, table: Thresholds['starch']): number {
  if (!starch) return NOT_SAID;
  const index = starchOneToEight(starch.value, starchScale);
  if (index <= table.mature.value) return LONG;
  return index < table.overMature.value ? MID : SHORT;
}

function rankByEthylene({ ethylene }: Maturity): number {
  return !ethylene || ethylene.value <= 1 ? NOT_SAID : MID;
}

/** Of each test that says something, what it says. */
function reasons(
  maturity: Maturity,
  table: Thresholds,
  [byFirmness, byStarch, byEthylene]: readonly [number, number, number],
  units: DisplayUnits,
): string {
  const said: string[] = [];
  if (byFirmness !== NOT_SAID) said.push(firmnessSaid(maturity, table.firmness, byFirmness, units));
  if (byStarch !== NOT_SAID) said.push(starchSaid(maturity, table.starch, byStarch));
  if (byEthylene !== NOT_SAID)
    said.push(`internal ethylene ${tenth(maturity.ethylene?.value ?? 0)} ppm is above 1 ppm`);
  return said.join('; ');
}

function firmnessSaid(
  { firmness }: Maturity,
  { long, mid, short }: Thresholds['firmness'],
  rank: number,
  units: DisplayUnits,
): string {
  const [least, word] = (
    [
      [long, 'at least the long-term'],
      [long, 'below the long-term'],
      [mid, 'below the mid-term'],
      [short, 'below the short-term'],
    ] as const
  )[rank] ?? [short, 'below the short-term'];
  const [tested, limit] = forces(firmness?.value ?? 0, least.value, units);
  return `firmness ${tested} is ${word} ${limit}`;
}

function starchSaid({ starch, starchScale }: Maturity, table: Thresholds['starch'], rank: number): string {
  const index = tenth(starchOneToEight(starch?.value ?? 0, starchScale));
  const said = `starch ${index}${starchScale === 'one-to-eight' ? '' : ' on the one-to-eight scale'}`;
  if (rank === LONG) return `${said} is within ${table.mature.value}, mature for long-term storage`;
  if (rank === MID) return `${said} is past ${table.mature.value}, the limit for long-term storage`;
  return `${said} has reached ${table.overMature.value}, over-mature`;
}

/** A value that was written in other units may fall short of its threshold by rounding in the last binary digit. */
function reaches(value: number, least: number): boolean {
  return value >= least - 1e-9;
}

/** Two forces in newtons as they are told: to the tenth, or as finely as it takes to tell them apart. */
function forces(one: number, other: number, units: DisplayUnits): readonly [string, string] {
  const value = (newtons: number) => measure(newtons, 'N', units)?.value ?? newtons;
  const [a, b] = fixedApart(value(one), value(other), 1);
  const told = (text: string) => `${Number(text)} ${unitLabel('N', units)}`;
  return [told(a), told(b)];
}

function tenth(value: number): string {
  return String(Math.round(value * 10) / 10);
}
