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

const TOP_OF_SCALE: Readonly<Record<StarchScale, number>> = {
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
  const judged = [
    byFirmness(maturity, table.firmness),
    byStarch(maturity, table.starch),
    byEthylene(maturity),
  ].filter((each) => each !== undefined);
  const first = judged[0];
  if (!first) return { term: undefined, reason: () => 'the maturity test gives neither firmness nor starch' };
  const weakest = judged.reduce((a, b) => (ORDER.indexOf(b.term) > ORDER.indexOf(a.term) ? b : a), first);
  return { term: weakest.term, reason: (units) => judged.map(({ reason }) => reason(units)).join('; ') };
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

interface Judged {
  readonly term: StorageTerm;
  readonly reason: TermDecision['reason'];
}

type Thresholds = NonNullable<Variety['maturityByTerm']>;

function byFirmness({ firmness }: Maturity, table: Thresholds['firmness']): Judged | undefined {
  if (!firmness) return undefined;
  const [long, mid, short] = [table.long.value, table.mid.value, table.short.value];
  const at = (term: StorageTerm, least: number, word: string): Judged => ({
    term,
    reason: (units) => {
      const [tested, limit] = forces(firmness.value, least, units);
      return `firmness ${tested} is ${word} ${limit}`;
    },
  });
  if (reaches(firmness.value, long)) return at('long', long, 'at least the long-term');
  if (reaches(firmness.value, mid)) return at('mid', long, 'below the long-term');
  if (reaches(firmness.value, short)) return at('short', mid, 'below the mid-term');
  return at('air', short, 'below the short-term');
}

function byStarch({ starch, starchScale }: Maturity, table: Thresholds['starch']): Judged | undefined {
  if (!starch) return undefined;
  const index = starchOneToEight(starch.value, starchScale);
  const converted = starchScale === 'one-to-eight' ? '' : ' on the one-to-eight scale';
  const said = () => `starch ${tenth(index)}${converted}`;
  if (index <= table.mature.value) {
    return {
      term: 'long',
      reason: () => `${said()} is within ${table.mature.value}, mature for long-term storage`,
    };
  }
  if (index < table.overMature.value) {
    return {
      term: 'mid',
      reason: () => `${said()} is past ${table.mature.value}, the limit for long-term storage`,
    };
  }
  return { term: 'short', reason: () => `${said()} has reached ${table.overMature.value}, over-mature` };
}

function byEthylene({ ethylene }: Maturity): Judged | undefined {
  if (!ethylene || ethylene.value <= 1) return undefined;
  return { term: 'mid', reason: () => `internal ethylene ${tenth(ethylene.value)} ppm is above 1 ppm` };
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
