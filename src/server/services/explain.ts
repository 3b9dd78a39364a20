import type { ComputedSeason } from '../../findings/types';
import { displayUnits, explainFigure } from '../../report/explain';
import { PAGE_WIDTH, wrap } from '../../report/table';
import { thingsOf } from '../../report/things';
import { caution } from '../../room/caution';
import { consequencesOf } from './consequences';
import { cursorAt } from './cursor';
import type { PlacePoint } from './entries';
import { entryAround, type Subject } from './subject';

export interface Explanation {
  readonly title: string;
  /** Plain text, at most a hundred columns wide. */
  readonly text: string;
}

/** What the command line calls the entries of each section; it explains the same figures. */
const KINDS: Readonly<Record<Subject['section'], string>> = {
  bins: 'bin type',
  rooms: 'room',
  scrubbers: 'scrubber',
  nitrogen: 'nitrogen source',
  refrigeration: 'refrigeration group',
  varieties: 'variety',
  regimes: 'regime',
  lots: 'lot',
  fills: 'fill',
  demand: 'demand',
};

/** How the figures of the entry at the place came about; undefined where no figures belong to it. */
export function explainAt(season: ComputedSeason, point: PlacePoint): Explanation | undefined {
  const text = season.plan.files.get(point.file)?.text;
  const place = text === undefined ? undefined : cursorAt(text, point.offset);
  const subject = place && entryAround(place);
  return subject && explainSubject(season, subject);
}

function explainSubject(season: ComputedSeason, subject: Subject): Explanation | undefined {
  const consequences = consequencesOf(season, subject);
  const thing = thingsOf(season).find(({ kind, id }) => kind === KINDS[subject.section] && id === subject.id);
  if (!thing && !consequences) return undefined;
  const { system } = displayUnits(season.plan);
  const figures = thing?.figures.filter(({ minor, figure }) => !minor && figure.origin.kind !== 'plan') ?? [];
  const title = consequences?.title ?? `${thing?.kind} ${subject.id}`;
  const sentences = [...(consequences?.sentences ?? []), ...(consequences?.opening ? [caution] : [])];
  const parts = [
    title,
    ...sentences.flatMap((sentence) => wrap(sentence, PAGE_WIDTH, '  ')),
    ...figures.map(({ figure }) => `\n${explainFigure(figure, season.plan, system)}`),
  ];
  return { title, text: `${parts.join('\n')}\n` };
}
