/**
 * A generated season written at length: every lot a block map with a key a line, and two samples of its stored fruit in
 * a line each. Large plans are so by the spring; one with a lot a line and no samples is a plan at harvest.
 */
import { parse } from 'yaml';
import { formatDay, parseDay } from '../plan/dates';
import { seededRandom } from '../plan/random';

const LOT = /^ {2}([A-Z]+-[\d-]+): (\{[^}]*(?:\{[^}]*\}[^}]*)*\})\n/gm;

/** Days after the last day of picking on which fruit is taken from the room. */
const SAMPLED_AFTER_DAYS = [63, 119];
/** Of lots that were not tested at harvest, and what fruit loses a month; invented, as the season is. */
const UNTESTED_FIRMNESS = '76 N';
const SOFTENING_N_A_MONTH = 2.4;
const DAYS_A_MONTH = 30.4;

interface WrittenLot {
  readonly picked: string;
  readonly maturity?: { readonly firmness: string };
}

/** The same sections with their lots at length, and with one more of samples. */
export function atLength(sections: ReadonlyMap<string, string>): Map<string, string> {
  const samples: string[] = [];
  const random = seededRandom(63);
  const lots = (sections.get('lots') ?? '').replace(LOT, (_, id: string, written: string) => {
    samples.push(...samplesOf(id, parse(written), random));
    return `  ${id}:\n${blockLines(written)}`;
  });
  return new Map([...sections, ['lots', lots], ['samples', samples.join('')]]);
}

/** `{ a: 1, b: { c: 2 } }` with a line a key; maps and lists within stay as they are. */
function blockLines(flow: string): string {
  return [...flow.slice(1, -1).matchAll(/([a-z-]+): +(\{[^}]*\}|\[[^\]]*\]|[^,]*[^,\s])/g)]
    .map(([, key, value]) => `    ${key}: ${value}\n`)
    .join('');
}

function samplesOf(id: string, { picked, maturity }: WrittenLot, random: () => number): string[] {
  const last = parseDay(picked.slice(-'2026-09-01'.length)) ?? 0;
  const atHarvest = Number.parseFloat(maturity?.firmness ?? UNTESTED_FIRMNESS);
  return SAMPLED_AFTER_DAYS.map((days, index) => {
    const firmness = atHarvest - (SOFTENING_N_A_MONTH * days) / DAYS_A_MONTH + 2 * (random() - 0.5);
    const solids = 12.2 + random();
    return `  T${index + 1}-${id}: { lot: ${id}, taken: ${formatDay(last + days)}, fruit: 20, firmness: ${firmness.toFixed(1)} N, soluble-solids: ${solids.toFixed(1)} % }\n`;
  });
}
