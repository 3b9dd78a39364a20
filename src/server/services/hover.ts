import { hasRule, ruleOf } from '../../findings/rules';
import type { ComputedSeason } from '../../findings/types';
import type { Plan } from '../../plan/model';
import type { Span } from '../../plan/span';
import { cautionInShort } from '../../room/caution';
import { consequencesOf, windowOf } from './consequences';
import { consequencesMarkdown, shown } from './consequences-text';
import type { Consequences } from './consequences-types';
import { type CursorPlace, cursorAt } from './cursor';
import { tellDate } from './dates-told';
import type { PlacePoint } from './entries';
import { figuresText } from './hover-figures';
import { inOtherUnits } from './other-units';
import { type Guide, guideAt } from './schema-guide';
import { subjectAt, unquoted } from './subject';

/** What is shown over a place: Markdown, and the text it speaks of. */
export interface Hover {
  readonly at: Span;
  readonly markdown: string;
}

/** Stands beneath figures of a season whose plan has been edited since. */
const OLDER = 'The figures are those of the text before the last change.';

/**
 * The meaning of what stands at the place, and what the plan's computation makes of it. `plan` is the text as it is
 * now, and `season` may be that of a moment ago: then its figures are marked as older.
 */
export function hoverAt(
  season: ComputedSeason,
  point: PlacePoint,
  plan: Plan = season.plan,
): Hover | undefined {
  const text = plan.files.get(point.file)?.text;
  if (text === undefined) return undefined;
  const allowed = allowanceHover(plan, point);
  if (allowed) return allowed;
  const place = cursorAt(text, point.offset);
  if (!place || place.at === 'new-key' || place.text === '') return undefined;
  const consequences = consequencesAt(season, place);
  const figures = [
    consequences && consequencesMarkdown(season, consequences),
    figuresText(season, place),
  ].filter((section) => section !== undefined);
  const sections = [
    // Before anything that could be taken for leave to open.
    consequences?.opening ? `*${shown(cautionInShort)}*` : undefined,
    ruleText(place),
    keyText(place),
    valueText(place),
    ...figures,
    figures.length > 0 && season.plan !== plan ? `*${OLDER}*` : undefined,
  ].filter((section) => section !== undefined);
  if (sections.length === 0) return undefined;
  const at = { file: point.file, start: place.start, end: place.end };
  return { at, markdown: sections.join('\n\n---\n\n') };
}

function allowanceHover(plan: Plan, { file, offset }: PlacePoint): Hover | undefined {
  const found = plan.allowances.find(({ at }) => at.file === file && at.start <= offset && offset <= at.end);
  if (!found || !hasRule(found.code)) return undefined;
  return { at: found.at, markdown: `${ruleSummary(found.code)}\n\nAllowed here: ${shown(found.reason)}` };
}

function ruleText(place: CursorPlace): string | undefined {
  const [section, key, code] = place.path;
  if (section !== 'policy' || key !== 'findings' || code === undefined || !hasRule(code)) return undefined;
  return ruleSummary(code);
}

function ruleSummary(code: string): string {
  const { summary, family, severity } = ruleOf(code);
  return `**${code}**: ${shown(summary)} Family ${family}, ${severity} by default.`;
}

function keyText(place: CursorPlace): string | undefined {
  const guide = guideAt(place.path);
  if (!guide?.description || (place.at === 'value' && place.path.at(-1) === '[]')) return undefined;
  const own = guideAt(place.path.slice(0, -1))?.properties;
  // An identifier is the planner's own word: the section's meaning would only repeat itself on each of them.
  if (!own || !Object.hasOwn(own, place.path.at(-1) ?? '')) return undefined;
  return [guide.description, facts(guide)].filter(Boolean).join('\n\n');
}

function facts(guide: Guide): string {
  const facts: string[] = [];
  if (guide.enum) facts.push(`One of ${guide.enum.map((value) => `\`${value}\``).join(', ')}.`);
  if (guide['x-default'] !== undefined) facts.push(`Default: ${shown(guide['x-default'])}.`);
  const example = guide.examples?.[0];
  if (example !== undefined && typeof example !== 'object') facts.push(`Example: \`${String(example)}\`.`);
  return facts.join(' ');
}

function valueText(place: CursorPlace): string | undefined {
  if (place.at !== 'value') return undefined;
  const guide = guideAt(place.path);
  const text = unquoted(place.text);
  const dimension = guide?.['x-dimension'];
  const other = dimension ? inOtherUnits(text, dimension) : undefined;
  if (other !== undefined) return `${shown(text)} is ${shown(other)}.`;
  const told = guide?.['x-kind'] ? tellDate(text) : undefined;
  return told && `${shown(text)}: ${told}.`;
}

function consequencesAt(season: ComputedSeason, place: CursorPlace): Consequences | undefined {
  const subject = subjectAt(place);
  return subject ? consequencesOf(season, subject) : pinConsequences(season, place);
}

/** Over a pinned opening week, the window it should lie in. */
function pinConsequences(season: ComputedSeason, { path }: CursorPlace): Consequences | undefined {
  const [section, id, key] = path;
  if (section !== 'fills' || id === undefined || key !== 'open' || path.length > 3) return undefined;
  return windowOf(season, id);
}
