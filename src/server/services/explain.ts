import type { ComputedSeason } from '../../findings/types';
import { itemName } from '../../plan/check/item-kinds';
import { showFigure } from '../../plan/display';
import type { Figure } from '../../plan/figure';
import { displayUnits, explainTogether } from '../../report/explain';
import { PAGE_WIDTH, wrap } from '../../report/table';
import { thingsOf } from '../../report/things';
import { caution } from '../../room/caution';
import { consequencesOf } from './consequences';
import { consequencesMarkdown, shown } from './consequences-text';
import type { Consequences } from './consequences-types';
import { cursorAt } from './cursor';
import type { PlacePoint } from './entries';
import { entryAround, type Subject } from './subject';

export interface Explanation {
  readonly title: string;
  /** Markdown; its lines are at most a hundred columns wide, so that it can be read as it is too. */
  readonly markdown: string;
}

/** How the figures of the entry at the place came about; undefined where no figures belong to it. */
export function explainAt(season: ComputedSeason, point: PlacePoint): Explanation | undefined {
  const text = season.plan.files.get(point.file)?.text;
  const place = text === undefined ? undefined : cursorAt(text, point.offset);
  const subject = place && entryAround(place);
  return subject && explainSubject(season, subject);
}

function explainSubject(season: ComputedSeason, subject: Subject): Explanation | undefined {
  const told = [consequencesOf(season, subject), ...fillsOf(season, subject)].filter(
    (consequences) => consequences !== undefined,
  );
  const thing = thingsOf(season).find(
    ({ kind, id }) => kind === itemName(subject.section) && id === subject.id,
  );
  if (!thing && told.length === 0) return undefined;
  const figures = thing?.figures.filter(({ minor }) => !minor).map(({ figure }) => figure) ?? [];
  const title = told[0]?.title ?? `${thing?.kind} ${subject.id}`;
  const blocks = [
    `# ${shown(title)}`,
    told.some(({ opening }) => opening) ? `> ${caution}` : '',
    ...told.map((consequences, at) => consequencesMarkdown(season, consequences, at > 0)),
    ...derivations(season, figures),
  ];
  return {
    title,
    markdown: `${blocks
      .filter((block) => block !== '')
      .map(wrapped)
      .join('\n\n')}\n`,
  };
}

/** What fills a room belongs to the room's summary. */
function fillsOf(season: ComputedSeason, { section, id }: Subject): (Consequences | undefined)[] {
  if (section !== 'rooms') return [];
  return [...season.filled.values()]
    .filter(({ room }) => room.id === id)
    .map(({ fill }) => consequencesOf(season, { section: 'fills', id: fill.id }));
}

/** Computed figures first: they are what is asked after. Values that were only looked up come last. */
function derivations(season: ComputedSeason, figures: readonly Figure[]): string[] {
  const units = displayUnits(season.plan);
  const of = (...kinds: Figure['origin']['kind'][]) =>
    figures.filter(({ origin }) => kinds.includes(origin.kind));
  const part = (heading: string, found: readonly Figure[]) => {
    if (found.length === 0) return [];
    // Told together: what many figures rest on (a room's volume, its fruit) stands on the page once.
    const { texts, sources } = explainTogether(found, season.plan, units.system);
    return [
      `## ${heading}`,
      ...found.flatMap((figure, index) => [
        `### ${shown(figure.name)}: ${shown(showFigure(figure, units))}`,
        fenced(texts[index] ?? ''),
      ]),
      ...(sources === '' ? [] : ['### Sources', fenced(sources)]),
    ];
  };
  return [
    ...part('How the figures came about', of('computed', 'counted')),
    ...part('Reference values', of('reference')),
  ];
}

/** Text between fences that nothing in it can end. */
function fenced(text: string): string {
  const longest = Math.max(2, ...[...text.matchAll(/`+/g)].map(([run]) => run.length));
  const fence = '`'.repeat(longest + 1);
  return `${fence}text\n${text}\n${fence}`;
}

/** Long lines of prose go on in the next line, which Markdown takes for the same paragraph. */
function wrapped(block: string): string {
  if (/^(`{3}|#)/.test(block)) return block;
  const indent = block.startsWith('> ') ? '> ' : '  ';
  return block
    .split('\n')
    .flatMap((line) => {
      const lines = wrap(line, PAGE_WIDTH - 2, indent);
      // Two spaces at its end keep a line break where the paragraph has one.
      return line.endsWith('  ') ? [...lines.slice(0, -1), `${lines.at(-1)?.trimEnd()}  `] : lines;
    })
    .join('\n');
}
