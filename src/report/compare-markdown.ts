import { ownChangesFirst, ownEditsFirst } from '../compare/own-changes';
import { toldOnce } from '../compare/told-once';
import type { Comparison, Consequence, PlanChange } from '../compare/types';
import type { DisplayUnits } from '../plan/display';
import { cautionInShort } from '../room/caution';
import { changeText } from './compare-changes';
import { countText, type Headline, headlineOf, totalRows, weeksText } from './compare-headline';
import { linkAddress } from './compare-links';
import { type ComparedPlans, placeIn } from './compare-report';
import { causeText, consequenceText, heldBackText, tellsOfOpening } from './compare-words';
import { type Place, placeOf } from './place';

export interface MarkdownOptions {
  readonly units: DisplayUnits;
  /** What stands before a file's path in a link: the address of the new plan's revision; empty for a relative link. */
  readonly linkBase: string;
  /** A file's path behind that, where it is not the one it is shown by. */
  readonly linkPath?: (file: string) => string;
  /** Tells this plan's comment from that of another plan in the same place. */
  readonly marker: string;
  /** Characters the comment may have. */
  readonly most: number;
}

/** Forges take 65,536 characters; some is left for what they put around a comment. */
export const MOST_CHARACTERS = 60_000;
/** Graves and gains that are told before the fold. */
const MOST_WORSE = 6;
const MOST_BETTER = 2;
/** A single line is never longer. */
const MOST_IN_LINE = 400;

/** The first line of every comment: whoever posts it looks for it, to put the new comment in the old one's place. */
export function markerLine(marker: string): string {
  return `<!-- lotwright compare ${marker.replaceAll(/--+|>/g, '-')} -->`;
}

/** A comparison as a comment for a pull request; empty where nothing has changed. */
export function compareMarkdown(
  comparison: Comparison,
  plans: ComparedPlans,
  options: MarkdownOptions,
): string {
  if (comparison.changes.length === 0 && comparison.consequences.length === 0) return '';
  const before = beforeFold(comparison, options);
  const follows = toldOnce(comparison.consequences)
    .filter((one) => !before.all.has(one))
    .map((one) => consequenceItem(one, comparison, plans, options));
  const changes = comparison.changes.map((one) => changeItem(one, plans, options));
  const head = headLines(comparison, before, plans, options);
  const foot = footLines(comparison);
  const made = (items: number) =>
    [
      ...head,
      ...folded(`What else follows (${follows.length})`, cutInMiddle(follows, items)),
      ...folded(`The changes (${changes.length})`, cutInMiddle(changes, items)),
      ...foot,
      '',
    ].join('\n');
  let items = Math.max(follows.length, changes.length);
  let text = made(items);
  while (text.length > options.most && items > 0) {
    items = Math.floor(items * 0.7);
    text = made(items);
  }
  return text;
}

interface BeforeFold {
  readonly headline: Headline;
  readonly items: readonly Consequence[];
  /** How many more are for the worse. */
  readonly left: number;
  /** The headline's and the items'. */
  readonly all: ReadonlySet<Consequence>;
}

/** What is told before the fold: it fits a screen, however much has changed. */
function beforeFold(comparison: Comparison, { units }: Pick<MarkdownOptions, 'units'>): BeforeFold {
  const headline = headlineOf(comparison, units);
  const others = toldOnce(comparison.consequences).filter((one) => one !== headline.of);
  const grave = others.filter((one) => one.direction === 'worse');
  const gains = others.filter((one) => one.direction === 'better');
  const items = [...grave.slice(0, MOST_WORSE), ...gains.slice(0, MOST_BETTER)];
  return {
    headline,
    items,
    left: Math.max(0, grave.length - MOST_WORSE),
    all: new Set([...(headline.of ? [headline.of] : []), ...items]),
  };
}

function headLines(
  comparison: Comparison,
  { headline, items, left }: BeforeFold,
  plans: ComparedPlans,
  options: MarkdownOptions,
): string[] {
  const { units, marker } = options;
  const [finding] = [headline.of?.newFinding ?? headline.of?.oldFinding];
  const at = finding ? [placeIn(plans, finding.at)] : [];
  const first = firstNamed(headline.of, comparison);
  const cause =
    headline.cause === ''
      ? ''
      : `**Because of:** ${plain(headline.cause)}${links(placesOf(first, plans), plans, options)}`;
  return [
    markerLine(marker),
    `### ${plain(headline.text)}${links(at, plans, options)}`,
    ...(cause === '' ? [] : [cause]),
    '',
    `Against ${code(plans.old.name)}: ${countText(comparison)}.`,
    ...tableLines(comparison, units),
    ...(items.length === 0 ? [] : ['']),
    ...items.map((one) => consequenceItem(one, comparison, plans, options)),
    ...(left === 0 ? [] : [`- and ${left} more for the worse, below`]),
    ...notComputedLines(comparison),
    ...(tellsOfOpening(comparison) ? ['', `> ${cautionInShort}`] : []),
  ];
}

/** The change that is named first as the cause of what the headline tells. */
function firstNamed(of: Consequence | undefined, { edits }: Comparison): PlanChange | undefined {
  const own = of?.causes.parts[0]?.edits;
  if (!of || !own) return edits[0]?.changes[0];
  const [first = 0] = ownEditsFirst(own, edits, of);
  const edit = edits[first];
  return edit && ownChangesFirst(edit, of)[0];
}

function tableLines(comparison: Comparison, units: DisplayUnits): string[] {
  const rows = totalRows(comparison, units);
  if (rows.length === 0) return [];
  const line = (cells: readonly string[]) => `| ${cells.map(plain).join(' | ')} |`;
  return ['', line(['', 'Before', 'After', 'Change']), '| --- | ---: | ---: | ---: |', ...rows.map(line)];
}

function consequenceItem(
  one: Consequence,
  comparison: Comparison,
  plans: ComparedPlans,
  options: MarkdownOptions,
): string {
  const { units } = options;
  const finding = one.newFinding ?? one.oldFinding;
  const cause = comparison.edits.length < 2 ? '' : causeText(one, comparison, units);
  const mark = one.direction === 'neither' ? '' : `**${one.direction}**, `;
  const because = cause === '' ? '' : ` Because of: ${plain(cause)}`;
  return `- ${mark}${plain(consequenceText(one, units))}${links(finding ? [placeIn(plans, finding.at)] : [], plans, options)}.${because}`;
}

function changeItem(one: PlanChange, plans: ComparedPlans, options: MarkdownOptions): string {
  return `- ${plain(changeText(one, options.units))}${links(placesOf(one, plans), plans, options)}`;
}

function placesOf(one: PlanChange | undefined, { old, now }: ComparedPlans): Place[] {
  if (one?.newAt) return [placeOf(now.plan, one.newAt)];
  return one?.oldAt ? [placeOf(old.plan, one.oldAt)] : [];
}

/** Links to lines of the new plan's files; a line that only an older commit has is named. */
function links(
  places: readonly Place[],
  { now }: ComparedPlans,
  { linkBase, linkPath }: Pick<MarkdownOptions, 'linkBase' | 'linkPath'>,
): string {
  return places
    .map((place) => {
      const name = `${plain(place.file.split('/').at(-1) ?? place.file)}:${place.line}`;
      const address = linkAddress(place, now.plan.files, linkBase, linkPath);
      return address === undefined ? ` (${name} before)` : ` ([${name}](${address}))`;
    })
    .join('');
}

function folded(title: string, items: readonly string[]): string[] {
  return items.length === 0
    ? []
    : ['', `<details><summary>${title}</summary>`, '', ...items, '', '</details>'];
}

/** The first and the last of a list, with a word on what is left out between them. */
function cutInMiddle(items: readonly string[], most: number): readonly string[] {
  if (items.length <= most) return items;
  const first = Math.ceil(most / 2);
  const last = most - first;
  const left = items.length - first - last;
  return [
    ...items.slice(0, first),
    `- *${left} left out here, for the comment would be too long; \`lotwright compare\` lists them*`,
    ...(last === 0 ? [] : items.slice(-last)),
  ];
}

function notComputedLines({ notComputed }: Comparison): string[] {
  if (notComputed.length === 0) return [];
  const told = notComputed.map(({ side, what }) => (side === 'both' ? what : `in the ${side} plan ${what}`));
  return ['', `**Not computed:** ${plain(told.join('; '))}.`];
}

function footLines(comparison: Comparison): string[] {
  const told = [heldBackText(comparison.heldBack), weeksText(comparison)].filter(
    (line) => line !== undefined,
  );
  return told.length === 0 ? [] : ['', `<sub>${plain(told.join(' '))}</sub>`];
}

/** Text of a plan as text of Markdown: nothing of it is markup, a link or a mention of somebody; and in one line. */
function plain(text: string): string {
  const line = text.replaceAll(/\s+/g, ' ');
  const short =
    line.length <= MOST_IN_LINE
      ? line
      : `${line.slice(0, MOST_IN_LINE / 2)} … ${line.slice(-MOST_IN_LINE / 2)}`;
  return short
    .replaceAll(/[\\`*_[\]|#~]/g, (mark) => `\\${mark}`)
    .replaceAll('&', '&amp;')
    .replaceAll('<', '&lt;')
    .replaceAll('>', '&gt;')
    .replaceAll('@', '&#64;');
}

function code(text: string): string {
  return `\`${text.replaceAll(/[`\s]+/g, ' ')}\``;
}
