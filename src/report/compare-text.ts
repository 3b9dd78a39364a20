import { toldOnce } from '../compare/told-once';
import type { Comparison, Consequence } from '../compare/types';
import type { DisplayUnits } from '../plan/display';
import { caution } from '../room/caution';
import { changeText } from './compare-changes';
import { countText, headlineOf, totalRows, weeksText } from './compare-headline';
import { type ComparedPlans, placeIn } from './compare-report';
import { causeText, consequenceText, heldBackText, tellsOfOpening } from './compare-words';
import { noPaint, type Paint } from './paint';
import { placeOf } from './place';
import { PAGE_WIDTH, table, wrap } from './table';

/** A comparison as text for a terminal, the gravest first. */
export function compareText(
  comparison: Comparison,
  plans: ComparedPlans,
  units: DisplayUnits,
  paint: Paint = noPaint,
): string {
  const { old, now } = plans;
  if (comparison.changes.length === 0 && comparison.consequences.length === 0)
    return paint.good(`Nothing has changed from ${old.name} to ${now.name}${renamedText(comparison)}.`);
  const headline = headlineOf(comparison, units);
  const told = toldOnce(comparison.consequences);
  const of = (direction: Consequence['direction']) => told.filter((one) => one.direction === direction);
  const cautioned = tellsOfOpening(comparison) ? ['', ...wrap(caution, PAGE_WIDTH)] : [];
  const lines = [
    ...wrap(paint.bold(headline.text), PAGE_WIDTH),
    ...(headline.cause === '' ? [] : wrap(`Because of: ${headline.cause}`, PAGE_WIDTH)),
    '',
    ...wrap(
      `From ${old.name} to ${now.name}: ${countText(comparison)}${renamedText(comparison)}.`,
      PAGE_WIDTH,
    ),
    ...totalLines(comparison, units),
    ...part('For the worse', of('worse'), comparison, plans, units, paint),
    ...part('For the better', of('better'), comparison, plans, units, paint),
    ...part('Neither', of('neither'), comparison, plans, units, paint),
    ...changeLines(comparison, plans, units, paint),
    ...closing(comparison),
    ...cautioned,
  ];
  return lines.join('\n');
}

function renamedText({ renames }: Comparison): string {
  if (renames.length === 0) return '';
  const names = renames.map(({ before, after }) => `${before} to ${after}`);
  return `; renamed: ${names.slice(0, 5).join(', ')}${names.length > 5 ? ` and ${names.length - 5} more` : ''}`;
}

function totalLines(comparison: Comparison, units: DisplayUnits): string[] {
  const rows = totalRows(comparison, units);
  if (rows.length === 0) return [];
  const number = { align: 'right' as const };
  const columns = [
    { title: '' },
    { title: 'Before', ...number },
    { title: 'After', ...number },
    { title: 'Change', ...number },
  ];
  return ['', ...table(columns, rows)];
}

function part(
  title: string,
  consequences: readonly Consequence[],
  comparison: Comparison,
  plans: ComparedPlans,
  units: DisplayUnits,
  paint: Paint,
): string[] {
  if (consequences.length === 0) return [];
  const lines = consequences.flatMap((one) => {
    const cause = comparison.edits.length < 2 ? '' : causeText(one, comparison, units);
    const finding = one.newFinding ?? one.oldFinding;
    const place = finding && placeIn(plans, finding.at);
    const where = place ? ` (${place.file}:${place.line})` : '';
    return [
      ...wrap(`  ${consequenceText(one, units)}${where}`, PAGE_WIDTH, '    '),
      ...(cause === '' ? [] : wrap(`    because of: ${cause}`, PAGE_WIDTH, '      ')),
    ];
  });
  return ['', paint.bold(title), ...lines];
}

function changeLines(
  { changes }: Comparison,
  { old, now }: ComparedPlans,
  units: DisplayUnits,
  paint: Paint,
): string[] {
  if (changes.length === 0) return [];
  const lines = changes.flatMap((one) => {
    const place = one.newAt ? placeOf(now.plan, one.newAt) : one.oldAt && placeOf(old.plan, one.oldAt);
    const where = place ? ` (${place.file}:${place.line})` : '';
    return wrap(`  ${changeText(one, units)}${where}`, PAGE_WIDTH, '    ');
  });
  return ['', paint.bold('Changes of the plan'), ...lines];
}

function closing(comparison: Comparison): string[] {
  const notComputed = comparison.notComputed.map(({ side, what }) =>
    side === 'both' ? `Not computed: ${what}.` : `Not computed in the ${side} plan: ${what}.`,
  );
  const told = [heldBackText(comparison.heldBack), ...notComputed, weeksText(comparison)];
  const lines = told.flatMap((line) => (line === undefined ? [] : wrap(line, PAGE_WIDTH)));
  return lines.length === 0 ? [] : ['', ...lines];
}
