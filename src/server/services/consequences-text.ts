import type { ComputedSeason } from '../../findings/types';
import { showFigure, temperaturesIn } from '../../plan/display';
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
        // What is shown in °F is not named in °C.
        `- ${shown(temperaturesIn(label, units))}: ${shown(showFigure(figure, units))}${known(figure)}`,
    )
    .join('\n');
}

/** A reference value says where it comes from and how well it is known. */
function known({ origin }: Figure): string {
  return origin.kind === 'reference' ? ` (${origin.source.known}: ${shown(origin.source.citation)})` : '';
}

const ADDRESS = /https?:\/\/[^\s()]+/g;

/** Code as Markdown has it: as many backticks as it begins with end it. */
const CODE = /(?<!`)(`+)(?!`)[\s\S]*?(?<!`)\1(?!`)/g;

/**
 * Text from a plan is shown as written: it must not become Markdown of its own. Code in backticks stays as it
 * is (a backtick that begins none does not end one elsewhere), and so do the underscores of an address, which would show
 * with a stroke before each.
 */
export function shown(text: string): string {
  let [made, from] = ['', 0];
  for (const { 0: code, index } of text.matchAll(CODE)) {
    made += escaped(text.slice(from, index)) + code;
    from = index + code.length;
  }
  return made + escaped(text.slice(from));
}

function escaped(text: string): string {
  return text
    .replace(/[\\`*_{}[\]<>#|]/g, '\\$&')
    .replace(ADDRESS, (address) => address.replaceAll('\\_', '_'));
}
