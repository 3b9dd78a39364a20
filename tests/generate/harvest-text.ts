import { formatDay } from '../../src/plan/dates';
import { AS_OF, daySpanText, type Harvest } from './harvest';
import { columns, flow, flowLines, groupBy, wrapped } from './text';
import type { GeneratedFill, GeneratedLot } from './types';
import type { Kind } from './varieties';

/** The lots of one variety: two lines a lot, what it is and how it was picked. */
export function lotsText(kind: Kind, harvest: Harvest): string {
  const lots = harvest.lots.filter((lot) => lot.kind === kind);
  const rooms = groupBy(lots, (lot) => harvest.fills.find((fill) => fill.lots.has(lot.id)));
  const rows = columns(lots.map(firstCells));
  const lines: string[] = [];
  for (const [fill, own] of rooms) {
    if (fill) lines.push(`  # Picked for ${fill.room.id}`);
    for (const lot of own) {
      const note = lot.note === undefined ? '' : ` # ${lot.note}`;
      lines.push(`  ${rows[lots.indexOf(lot)]}`, `            ${secondLine(lot)} }${note}`);
    }
  }
  const received = lots.filter((lot) => lot.received).length;
  return `# ${kind.note}
# As at ${formatDay(AS_OF)}: ${received === lots.length ? 'all' : `${received} of ${lots.length}`} lots received. Starch on the scale of one to eight.
lotwright: 1

lots:
${lines.join('\n')}
`;
}

function firstCells(lot: GeneratedLot): string[] {
  return [
    `${lot.id}: {`,
    `variety: ${lot.kind.name},`,
    `block: ${lot.block},`,
    `grower: ${lot.grower},`,
    `picked: ${daySpanText(lot.first, lot.last)},`,
    `bins: ${lot.expected}${lot.received ? `, received: ${lot.bins},` : ','}`,
  ];
}

function secondLine(lot: GeneratedLot): string {
  const { maturity } = lot;
  const parts = [`field-temperature: ${lot.fieldTemperature} °C`];
  if (maturity) {
    parts.push(
      `maturity: ${flow({
        tested: formatDay(maturity.tested),
        starch: maturity.starch.toFixed(1),
        firmness: `${maturity.firmness} N`,
        'soluble-solids': `${maturity.solubleSolids.toFixed(1)} %`,
      })}`,
    );
  }
  if (lot.treatments.length > 0) parts.push(`treatments: [${lot.treatments.join(', ')}]`);
  return parts.join(', ');
}

/** All fills, variety by variety in the order of harvest. */
export function fillsText(harvest: Harvest): string {
  const byKind = groupBy(harvest.fills, (fill) => fill.kind);
  const blocks = [...byKind].map(([kind, fills]) => `  # ${kind.name}\n${fills.map(entry).join('\n')}`);
  return `# Which lots go to which room. One fill a room; its name is the room and what is in it.
# A fill without \`sealed\` is kept in cold air. \`open\` pins the opening week; all others are for the schedule to choose.
lotwright: 1

fills:
${blocks.join('\n\n')}
`;
}

function entry(fill: GeneratedFill): string {
  const lots = [...fill.lots].map(([id, bins]) => `${id}: ${bins}`);
  const open = fill.open === undefined ? [] : [`    open: ${fill.open} # promised to the customer`];
  return [
    `  ${fill.id}:${fill.note === undefined ? '' : ` # ${fill.note}`}`,
    `    room: ${fill.room.id}`,
    `    regime: ${fill.regime}`,
    `    first-bin: ${formatDay(fill.first)}`,
    `    last-bin: ${formatDay(fill.last)}`,
    ...(fill.sealed === undefined ? [] : [`    sealed: ${formatDay(fill.sealed)}`]),
    lotLines(lots),
    ...open,
  ].join('\n');
}

function lotLines(lots: readonly string[]): string {
  const opening = '    lots: { ';
  return flowLines(opening, wrapped(lots, 108 - opening.length));
}
