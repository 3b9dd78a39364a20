import type { StorageTerm, Variety } from '../fruit/types';
import type { Maturity, StarchScale } from '../plan/model';

/** The term a lot's maturity suits, and why in words. */
export interface TermDecision {
  readonly term: StorageTerm | undefined;
  readonly reason: string;
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
  if (!maturity) return { term: undefined, reason: 'no maturity test' };
  const table = variety.maturityByTerm;
  if (!table) return { term: undefined, reason: `no table of harvest maturity for ${variety.name}` };
  const judged = [
    byFirmness(maturity, table.firmness),
    byStarch(maturity, table.starch),
    byEthylene(maturity),
  ].filter((each) => each !== undefined);
  const first = judged[0];
  if (!first) return { term: undefined, reason: 'the maturity test gives neither firmness nor starch' };
  const weakest = judged.reduce((a, b) => (ORDER.indexOf(b.term) > ORDER.indexOf(a.term) ? b : a), first);
  return { term: weakest.term, reason: judged.map(({ reason }) => reason).join('; ') };
}

/** Ratio of firmness (kgf, times 9.81) to soluble solids (%) and starch (one-to-ten): it falls as fruit ripens. */
export function streifIndex(firmnessKgf: number, solubleSolids: number, starchOneToTen: number): number {
  return (firmnessKgf * 9.81) / (solubleSolids * starchOneToTen);
}

interface Judged {
  readonly term: StorageTerm;
  readonly reason: string;
}

type Thresholds = NonNullable<Variety['maturityByTerm']>;

function byFirmness({ firmness }: Maturity, table: Thresholds['firmness']): Judged | undefined {
  if (!firmness) return undefined;
  const [long, mid, short] = [table.long.value, table.mid.value, table.short.value];
  const at = (term: StorageTerm, least: number, word: string): Judged => ({
    term,
    reason: `firmness ${tenth(firmness.value)} N is ${word} ${tenth(least)} N`,
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
  const said = `starch ${tenth(index)}${converted}`;
  if (index <= table.mature.value) {
    return { term: 'long', reason: `${said} is within ${table.mature.value}, mature for long-term storage` };
  }
  if (index < table.overMature.value) {
    return { term: 'mid', reason: `${said} is past ${table.mature.value}, the limit for long-term storage` };
  }
  return { term: 'short', reason: `${said} has reached ${table.overMature.value}, over-mature` };
}

function byEthylene({ ethylene }: Maturity): Judged | undefined {
  if (!ethylene || ethylene.value <= 1) return undefined;
  return { term: 'mid', reason: `internal ethylene ${tenth(ethylene.value)} ppm is above 1 ppm` };
}

/** A value that was written in other units may fall short of its threshold by rounding in the last binary digit. */
function reaches(value: number, least: number): boolean {
  return value >= least - 1e-9;
}

function tenth(value: number): string {
  return String(Math.round(value * 10) / 10);
}
