import { addEntries, type NewEntry } from './add-entries';
import { type Day, formatDay } from './dates';
import { plainText } from './edits';
import { STEP } from './indent-step';
import type { Plan } from './model';
import type { TextEdit } from './problem';

/** A fill to be written into a plan. */
export interface NewFill {
  readonly id: string;
  /** It is in the plan already: `lots` come to what it holds, and its days may end later. */
  readonly stands?: boolean;
  readonly room: string;
  readonly regime: string;
  readonly firstBin: Day;
  readonly lastBin: Day;
  /** Undefined for a room kept in air. */
  readonly sealed: Day | undefined;
  readonly lots: readonly { readonly lot: string; readonly bins: number }[];
}

const WIDTH = 110;

/**
 * Edits that add fills at the end of the plan's `fills:` section: behind the last fill where there are any, else in a
 * section that stands empty, else in a new one at the end of the file with the lots. All other text stays as it is.
 * Empty where there is no file to write to.
 */
export function addFills(plan: Plan, fills: readonly NewFill[]): TextEdit[] {
  const entries = fills.map(
    (fill): NewEntry => ({
      lines: (indent) => entryLines(fill, indent),
      inBraces: inBraces(fill),
    }),
  );
  return addEntries(plan, 'fills', entries, plan.lots.values().next().value);
}

function entryLines(fill: NewFill, indent: number): string[] {
  const outer = ' '.repeat(indent);
  const inner = ' '.repeat(indent + STEP);
  return [
    `${outer}${plainText(fill.id)}:`,
    ...pairsOf(fill).map((pair) => inner + pair),
    ...lotLines(fill, inner),
  ];
}

/** The lots in braces, broken where a line would be too long, later lines under the first lot. */
function lotLines({ lots }: NewFill, inner: string): string[] {
  const head = `${inner}lots: { `;
  const lines: string[] = [];
  let line = head;
  lots.forEach(({ lot, bins }, index) => {
    const pair = `${plainText(lot)}: ${bins}${index === lots.length - 1 ? ' }' : ','}`;
    if (line.trimEnd().length + 1 + pair.length > WIDTH && line.trim() !== '' && line !== head) {
      lines.push(line.trimEnd());
      line = ' '.repeat(head.length);
    }
    line += `${pair} `;
  });
  return [...lines, line.trimEnd()];
}

function inBraces(fill: NewFill): string {
  const lots = fill.lots.map(({ lot, bins }) => `${plainText(lot)}: ${bins}`).join(', ');
  return `${plainText(fill.id)}: { ${[...pairsOf(fill), `lots: { ${lots} }`].join(', ')} }`;
}

function pairsOf({ room, regime, firstBin, lastBin, sealed }: NewFill): string[] {
  return [
    `room: ${plainText(room)}`,
    `regime: ${plainText(regime)}`,
    `first-bin: ${formatDay(firstBin)}`,
    `last-bin: ${formatDay(lastBin)}`,
    ...(sealed === undefined ? [] : [`sealed: ${formatDay(sealed)}`]),
  ];
}
