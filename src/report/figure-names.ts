import type { ComputedSeason } from '../findings/types';
import { otherNames } from './other-names';
import { noPaint, type Paint } from './paint';
import type { ExplainReport } from './schemas';
import { table } from './table';
import { thingsOf } from './things';

type FigureNames = NonNullable<ExplainReport['names']>;

/** Every name that a figure of the plan can be asked for by, once a kind; many alike are one. */
export function figureNames(season: ComputedSeason): FigureNames {
  const { plan } = season;
  const lots = new Set(plan.lots.keys());
  const fills = new Set(plan.fills.keys());
  const also = alsoCalled();
  const found = new Map<string, FigureNames[number]>();
  for (const { kind, figures } of thingsOf(season)) {
    // A fill's figures are those of its room.
    if (kind === 'fill') continue;
    for (const { slug, figure, minor } of figures) {
      const name = minor ? pattern(slug, lots, fills) : slug;
      const key = `${kind} ${name}`;
      if (found.has(key)) continue;
      const what = minor ? withoutOne(figure.name, lots, fills) : figure.name;
      found.set(key, { kind, name, what, unit: figure.unit, alsoCalled: also.get(name) ?? [] });
    }
  }
  return [...found.values()];
}

/** `duty-2026-W41` as `duty-<week>`, `G4-storage-life` as `<lot>-storage-life`. */
function pattern(slug: string, lots: ReadonlySet<string>, fills: ReadonlySet<string>): string {
  const dated = slug.replace(/\d{4}-W\d\d/g, '<week>').replace(/\d{4}-\d\d-\d\d/g, '<day>');
  const parts = dated.split('-');
  for (let from = 0; from < parts.length; from += 1) {
    for (let to = parts.length; to > from; to -= 1) {
      const words = parts.slice(from, to).join('-');
      const stands = lots.has(words) ? '<lot>' : fills.has(words) ? '<fill>' : undefined;
      if (stands) return [...parts.slice(0, from), stands, ...parts.slice(to)].join('-');
    }
  }
  return dated;
}

/** What a figure of one day, week, lot or fill is called without saying which. */
function withoutOne(name: string, lots: ReadonlySet<string>, fills: ReadonlySet<string>): string {
  const dated = name.replace(/\d{4}-W\d\d/g, '<week>').replace(/\d{4}-\d\d-\d\d/g, '<day>');
  return dated
    .split(' ')
    .map((word) => (lots.has(word) ? '<lot>' : fills.has(word) ? '<fill>' : word))
    .join(' ');
}

function alsoCalled(): Map<string, string[]> {
  const names = new Map<string, string[]>();
  for (const [other, name] of otherNames) names.set(name, [...(names.get(name) ?? []), other]);
  return names;
}

/** The list as text, by kind. */
export function figureNameLines(names: FigureNames, paint: Paint = noPaint): string[] {
  const kinds = [...new Set(names.map(({ kind }) => kind))];
  return [
    ...kinds.flatMap((kind) => {
      const own = names.filter((one) => one.kind === kind);
      return [
        paint.bold(kind),
        '',
        ...table(
          [{ title: 'Name' }, { title: 'What it is', breaks: true }, { title: 'Also called', breaks: true }],
          own.map(({ name, what, alsoCalled: others }) => [name, what, others.join(', ')]),
        ),
        '',
      ];
    }),
    'Behind the identifier of a thing, after a point: lotwright explain R2.hours-to-set-point',
  ];
}
