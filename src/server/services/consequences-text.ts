import type { ComputedSeason } from '../../findings/types';
import { type DisplayUnits, showFigure } from '../../plan/display';
import type { Figure } from '../../plan/figure';
import { displayUnits } from '../../report/explain';
import type { Consequences, ConsequencesPart } from './consequences-types';

/** What follows from an entry, in Markdown: its title in bold unless it stands above, sentences, figures, its parts. */
export function consequencesMarkdown(
  season: ComputedSeason,
  consequences: Consequences,
  titled = true,
): string {
  const { title, figures, sentences, parts = [] } = consequences;
  const named = figures.map((figure) => ({ label: figure.name, figure }));
  return [
    titled ? `**${shown(title)}**` : '',
    sentences.map(shown).join('  \n'),
    figureList(season, named),
    ...parts.map((part) => partMarkdown(season, part)),
  ]
    .filter((text) => text !== '')
    .join('\n\n');
}

function partMarkdown(season: ComputedSeason, { title, figures, sentences }: ConsequencesPart): string {
  return [`*${shown(title)}*: ${sentences.map(shown).join(' ')}`, figureList(season, figures)].join('\n\n');
}

function figureList(
  season: ComputedSeason,
  figures: readonly { readonly label: string; readonly figure: Figure }[],
): string {
  const units = displayUnits(season.plan);
  return figures
    .map(
      ({ label, figure }) =>
        `- ${shown(named(label, units))}: ${shown(showFigure(figure, units))}${known(figure)}`,
    )
    .join('\n');
}

/** A reference value says where it comes from and how well it is known. */
function known({ origin }: Figure): string {
  return origin.kind === 'reference' ? ` (${origin.source.known}: ${shown(origin.source.citation)})` : '';
}

/** A figure's name with the temperature it is at in the plan's units: what is shown in °F is not named in °C. */
function named(label: string, { system }: DisplayUnits): string {
  if (system !== 'us') return label;
  return label.replace(
    /(-?\d+(?:\.\d+)?) \u00b0C/g,
    (_, degrees: string) => `${String(Number((Number(degrees) * 1.8 + 32).toFixed(1)))} °F`,
  );
}

const ADDRESS = /https?:\/\/[^\s()]+/g;

/**
 * Text from a plan is shown as written: it must not become Markdown of its own. Code in backticks stays, and the
 * underscores of an address, which would show with a stroke before each.
 */
export function shown(text: string): string {
  const escaped = text.replace(/[\\*_{}[\]<>#|]/g, '\\$&');
  return escaped.replace(ADDRESS, (address) => address.replaceAll('\\_', '_'));
}
