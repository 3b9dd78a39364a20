import { shortened } from '../../src/plan/shortened';
import type {
  ScrubberSeries,
  SupplySeries,
  TimelineRow,
  TimelineView,
} from '../../src/report/timeline-types';
import { BOTTOM, confidenceShapes, heightAt, KEY_CONFIDENCES } from './confidence-layout';
import { monthTicks, rowShapes, scrubberShapes, supplyShapes, WEEK_LABEL, weekTicks } from './layout';
import type { Part } from './state';
import { chanceText, scaleText, whole } from './texts';
import { filled, say, weekTick, weekTickWidens } from './words';

/**
 * The timeline as one picture, for reports and walls: the rooms as they are arranged, demand against supply, the
 * chances drawn, the plant's loads, a key and the caution. Scalable Vector Graphics text, in colours of its own that print well; the same view
 * always gives the same text.
 */

const WEEK = 16;
const ROW = 20;
const NAMES = 230;
const MARGIN = 16;
const HEAD = 44;
const AXIS = 34;
const SUPPLY = 70;
const SCRUBBER = 26;
const CHANCE = 22;
const KEY_ROW = 20;
const KEY_COLUMN = 192;
const LINE = 15;
/** Letters of the small type that fit into a line of the caution, for each pixel of width. */
const LETTERS = 0.145;

const INK = '#1c2126';
const MUTED = '#586069';
const LINES = '#d4d8dd';
const FRUIT = '#4c8a3f';
const GAS = '#7a4fb0';
const KEEP = '#3f74b5';
const LATE = '#b86a12';
const LACK = '#b3261e';
const PAPER = '#ffffff';

/** What of a view goes into its picture. */
export interface PictureParts {
  /** The variety that demand and supply are drawn of; all together where it is left out or gone. */
  readonly series?: string | null;
  /** Parts that are folded away, and so left out. */
  readonly folded?: readonly Part[];
}

/** The picture of a view, with the parts that are unfolded in it. */
export function timelinePicture(view: TimelineView, parts: PictureParts = {}): string {
  const { series: wanted, folded = [] } = parts;
  const width = MARGIN * 2 + NAMES + view.weeks.length * WEEK;
  const letters = Math.floor((width - 2 * MARGIN) * LETTERS);
  const caution = wrapped(view.caution, letters);
  const series = folded.includes('supply')
    ? undefined
    : (view.supply.find(({ name }) => name === wanted) ?? view.supply[0]);
  const equipment = equipmentOf(view, folded);
  const note = wrapped([view.scheduleNote, view.drawn?.note ?? ''].join(' ').trim(), letters);
  const drawn = note.map((line, index) => text(MARGIN, HEAD + LINE * index, line, { fill: MUTED }));
  let y = HEAD + LINE * note.length;
  drawn.push(at(MARGIN + NAMES, y, axis(view)));
  y += AXIS;
  const rowsTop = y;
  for (const row of view.rows) {
    drawn.push(at(MARGIN, y, rowParts(row, view.weeks.length)));
    y += ROW;
  }
  if (series) {
    drawn.push(at(MARGIN, y + 8, supply(series)));
    y += SUPPLY + 14;
    if (series.chance) {
      drawn.push(at(MARGIN, y, chances(series.chance, view.drawn?.older === true)));
      y += CHANCE + 8;
    }
  }
  for (const piece of equipment) {
    drawn.push(at(MARGIN, y + 4, loadBand(piece)));
    y += SCRUBBER + 6;
  }
  const grid = at(MARGIN + NAMES, rowsTop, gridLines(view, y - rowsTop));
  y += 10;
  const entries = keyEntries(view, series);
  const columns = Math.max(1, Math.floor((width - 2 * MARGIN) / KEY_COLUMN));
  drawn.push(at(MARGIN, y, key(entries, columns)));
  y += KEY_ROW * Math.ceil(entries.length / columns) + 12;
  const words = caution.map((line, index) =>
    text(MARGIN, y + LINE * (index + 1), line, { weight: index === 0 ? 600 : 400 }),
  );
  const height = y + LINE * caution.length + MARGIN;
  return [
    `<svg xmlns="http://www.w3.org/2000/svg" width="${width}" height="${height}" viewBox="0 0 ${width} ${height}" font-family="system-ui, sans-serif" font-size="12" role="img" aria-label="${escaped(view.title)}">`,
    patterns(),
    `<rect width="100%" height="100%" fill="${PAPER}"/>`,
    text(MARGIN, 26, view.title, { size: 16, weight: 600 }),
    grid,
    ...drawn,
    ...words,
    '</svg>\n',
  ].join('\n');
}

function rowParts(row: TimelineRow, weeks: number): string {
  const room = shortened(row.room, 18);
  // Varieties stand under each other, but behind a long name; a bold letter is some 7.4 wide, the others 6.
  const behind = Math.max(60, room.length * 7.4 + 8);
  const varieties = shortened(row.varieties, Math.floor((174 - behind) / 6));
  return [
    text(0, 14, room, { weight: 600 }),
    text(behind, 14, varieties, { fill: MUTED }),
    text(NAMES - 10, 14, row.bins.replace(/ .*$/, ''), { fill: MUTED, anchor: 'end' }),
    at(NAMES, 0, seasonOf(row, weeks)),
  ].join('');
}

function seasonOf(row: TimelineRow, weeks: number): string {
  const hung = row.hangs && (row.opens?.week ?? row.window?.bestBefore);
  const { life, filling, pullDown, keeping, emptying, window, late, conflict, opens } = rowShapes(row, weeks);
  const box = (from: number, to: number, y: number, height: number, look: string) =>
    `<rect x="${n(from * WEEK)}" y="${y}" width="${n((to - from) * WEEK)}" height="${height}" ${look}/>`;
  const wedge = ({ from, to }: { from: number; to: number }, opening: boolean) => {
    const [a, b] = [n(from * WEEK), n(to * WEEK)];
    const points = opening ? `${a},10 ${b},3 ${b},17` : `${a},3 ${b},10 ${a},17`;
    return `<polygon points="${points}" fill="${FRUIT}"/>`;
  };
  return [
    window &&
      box(
        window.from,
        window.to,
        2.5,
        15,
        `fill="${KEEP}" fill-opacity=".12" stroke="${MUTED}" stroke-width=".7"`,
      ),
    late && box(late.from, late.to, 3, 14, 'fill="url(#late)"'),
    ...confidence(row, weeks),
    life && `<line x1="${n(life.from * WEEK)}" x2="${n(life.to * WEEK)}" y1="10" y2="10" stroke="${MUTED}"/>`,
    keeping && box(keeping.from, keeping.to, 7, 6, `fill="${KEEP}"`),
    filling && wedge(filling, true),
    pullDown && box(pullDown.from, pullDown.to, 3, 14, `fill="url(#gas)" stroke="${GAS}"`),
    emptying && wedge(emptying, false),
    conflict !== undefined &&
      mark(conflict, `<path d="M-4 6 L4 14 M4 6 L-4 14" stroke="${LACK}" stroke-width="2"/>`),
    opens && mark(opens.at, opens.pinned ? PIN : DIAMOND),
    hung !== undefined && hung >= 0 && hung < weeks && mark(hung, row.hangs?.rank === 1 ? MOST_HUNG : HUNG),
  ]
    .filter((part) => typeof part === 'string')
    .join('');
}

/** The window at other confidences than the plan's; a picture's row is a pixel above the page's. */
function confidence(row: TimelineRow, weeks: number): string[] {
  const { beyond, within } = confidenceShapes(row, weeks);
  return [
    ...beyond.map(({ confidence: level, from, to }) => beyondBox(level, from * WEEK, (to - from) * WEEK)),
    ...within.map(({ confidence: level, at: week }) => withinLine(level, week * WEEK)),
  ];
}

function beyondBox(level: number, x: number, width: number): string {
  const height = heightAt(level);
  const fill = level > 50 ? 'url(#likely)' : 'none';
  return `<rect x="${n(x)}" y="${n(BOTTOM - 1 - height)}" width="${n(width)}" height="${n(height)}" fill="${fill}" stroke="${MUTED}" stroke-width=".7" stroke-dasharray="2 2"/>`;
}

function withinLine(level: number, x: number): string {
  return `<line x1="${n(x)}" x2="${n(x)}" y1="${n(BOTTOM - 1 - heightAt(level))}" y2="${BOTTOM - 1}" stroke="${INK}" stroke-dasharray="1 1.5"/>`;
}

const DIAMOND = `<path d="M0 4.5 L5.5 10 L0 15.5 L-5.5 10 Z" fill="${INK}" stroke="${PAPER}"/>`;
const PIN = `<line y1="7" y2="19" stroke="${INK}" stroke-width="2"/><circle cy="6" r="4.5" fill="${INK}" stroke="${PAPER}"/><circle cy="6" r="1.5" fill="${PAPER}"/>`;

/** A weight beneath the opening of a room that the schedule hangs on; larger for the one it hangs on most. */
const weight = (wide: number) =>
  `<path d="M-2.5 15.5 L2.5 15.5 L${wide} 20 L-${wide} 20 Z" fill="${INK}" stroke="${PAPER}" stroke-width=".6"/>`;
const MOST_HUNG = weight(6);
const HUNG = weight(4.5);

function mark(week: number, drawn: string): string {
  return `<g transform="translate(${n(week * WEEK)} 0)">${drawn}</g>`;
}

function axis(view: TimelineView): string {
  const months = monthTicks(view, WEEK).map(({ week, label }) =>
    text(week * WEEK + 3, 12, label, { weight: 600, size: 11 }),
  );
  const weeks = weekTicks(view.weeks, WEEK, view.today, WEEK_LABEL + weekTickWidens()).map(
    ({ week, label }) => text(week * WEEK + 3, 28, weekTick(label), { fill: MUTED, size: 10 }),
  );
  const today =
    view.today === undefined
      ? ''
      : text(view.today * WEEK, 28, say.today, { fill: LACK, size: 10, anchor: 'middle', weight: 600 });
  return [...months, ...weeks, today].join('');
}

function gridLines(view: TimelineView, height: number): string {
  const line = (week: number, look: string) =>
    `<line x1="${n(week * WEEK)}" x2="${n(week * WEEK)}" y1="0" y2="${height}" ${look}/>`;
  const months = view.months
    .filter(({ week }) => week > 0)
    .map(({ week }) => line(week, `stroke="${LINES}"`));
  const today = view.today === undefined ? [] : [line(view.today, `stroke="${LACK}" stroke-dasharray="4 3"`)];
  return [...months, ...today].join('');
}

function supply(series: SupplySeries): string {
  const { weeks, top } = supplyShapes(series);
  const bars = SUPPLY - 8;
  const bar = (week: number, low: number, high: number, look: string) =>
    high - low < 0.002
      ? ''
      : `<rect x="${n(week * WEEK + 1)}" y="${n(8 + bars * (1 - high))}" width="${WEEK - 2}" height="${n(bars * (high - low))}" ${look}/>`;
  const drawn = weeks.map(({ demand, supply: supplied, surplus, short }, week) =>
    [
      bar(week, 0, supplied, `fill="${KEEP}" fill-opacity=".75"`),
      bar(week, supplied, supplied + surplus, `fill="url(#surplus)" stroke="${MUTED}" stroke-width=".5"`),
      short ? bar(week, supplied, demand, `fill="url(#short)" stroke="${LACK}" stroke-width=".5"`) : '',
    ].join(''),
  );
  const steps = weeks
    .map(({ demand }, week) => {
      const y = n(8 + bars * (1 - demand));
      return `${week === 0 ? 'M' : 'L'}${week * WEEK} ${y} L${(week + 1) * WEEK} ${y}`;
    })
    .join(' ');
  return [
    text(0, 20, `${say.demand}, ${series.name}`, { weight: 600 }),
    text(0, 36, filled(say.atTop, scaleText(top), series.unit), { fill: MUTED, size: 11 }),
    at(NAMES, 0, `${drawn.join('')}<path d="${steps}" fill="none" stroke="${INK}" stroke-width="1.3"/>`),
  ].join('');
}

/** Bars that hang from a line, all of its height where a week is certain to be short; open ones are older. */
function chances(chance: readonly number[], older: boolean): string {
  const bars = CHANCE - 3;
  const look = older ? `fill="none" stroke="${LACK}"` : `fill="${LACK}"`;
  const drawn = chance.map((share, week) =>
    share < 0.005
      ? ''
      : `<rect x="${week * WEEK + 1}" y="1" width="${WEEK - 2}" height="${n(Math.max(1.5, bars * share))}" ${look}/>`,
  );
  const line = `<line x1="0" x2="${chance.length * WEEK}" y1="1" y2="1" stroke="${MUTED}"/>`;
  return [
    text(0, 12, older ? say.chanceShortOlder : say.chanceShort, { weight: 600 }),
    text(NAMES - 10, 12, filled(say.upTo, chanceText(Math.max(0, ...chance))), {
      fill: MUTED,
      size: 11,
      anchor: 'end',
    }),
    at(NAMES, 0, drawn.join('') + line),
  ].join('');
}

interface Piece {
  readonly label: string;
  readonly series: ScrubberSeries;
}

/** The scrubbers, then the other shared equipment, as far as they are unfolded. */
function equipmentOf(view: TimelineView, folded: readonly Part[]): Piece[] {
  const scrubbers = view.scrubbers.map((series) => ({
    label: filled(say.scrubberNamed, series.name),
    series,
  }));
  const others = (view.loads ?? []).flatMap(({ title, series: all }) =>
    all.map((series) => ({ label: series.name === title ? title : `${title} ${series.name}`, series })),
  );
  return [...(folded.includes('scrubbers') ? [] : scrubbers), ...(folded.includes('plant') ? [] : others)];
}

function loadBand({ label, series }: Piece): string {
  const { weeks, limit, highest } = scrubberShapes(series);
  const bars = SCRUBBER - 2;
  const drawn = weeks.map((week, index) =>
    week === null || week.share < 0.005
      ? ''
      : `<rect x="${index * WEEK + 1}" y="${n(1 + bars * (1 - week.share))}" width="${WEEK - 2}" height="${n(bars * week.share)}" ${week.over ? `fill="url(#short)" stroke="${LACK}"` : `fill="${GAS}" fill-opacity=".6"`}/>`,
  );
  const y = n(1 + bars * (1 - limit));
  const line = `<line x1="0" x2="${weeks.length * WEEK}" y1="${y}" y2="${y}" stroke="${INK}" stroke-dasharray="4 3"/>`;
  const peak =
    highest === null ? say.loadNotKnown : filled(say.highestLimit, whole(highest), whole(series.limit));
  return [
    text(0, 12, shortened(label, 34), { weight: 600 }),
    text(0, 25, peak, { fill: MUTED, size: 11 }),
    at(NAMES, 0, drawn.join('') + line),
  ].join('');
}

type KeyEntry = readonly [label: string, drawn: string];

function keyEntries(view: TimelineView, series: SupplySeries | undefined): readonly KeyEntry[] {
  return [
    [say.keyFilling, `<polygon points="3,10 23,3 23,17" fill="${FRUIT}"/>`],
    [say.keyPulledDown, `<rect x="7" y="3" width="12" height="14" fill="url(#gas)" stroke="${GAS}"/>`],
    [say.keyKeeping, `<rect y="7" width="26" height="6" fill="${KEEP}"/>`],
    [
      say.keyWindow,
      `<rect y="2.5" width="26" height="15" fill="${KEEP}" fill-opacity=".12" stroke="${MUTED}"/>`,
    ],
    [say.keyLate, '<rect y="3" width="26" height="14" fill="url(#late)"/>'],
    ...(view.rows.some(({ byConfidence }) => byConfidence) ? [confidenceEntry()] : []),
    [say.keyOpens, `<g transform="translate(13 0)">${DIAMOND}</g>`],
    [say.keyPinned, `<g transform="translate(13 0)">${PIN}</g>`],
    [say.keyPackedOut, `<polygon points="3,3 23,10 3,17" fill="${FRUIT}"/>`],
    [say.keySupplied, `<rect x="6" y="4" width="14" height="14" fill="${KEEP}" fill-opacity=".75"/>`],
    [say.keyShort, `<rect x="6" y="4" width="14" height="14" fill="url(#short)" stroke="${LACK}"/>`],
    ...(series?.chance
      ? [[say.keyChance, `<rect x="8" y="4" width="10" height="12" fill="${LACK}"/>`] as const]
      : []),
    ...(view.rows.some(({ hangs }) => hangs)
      ? [[say.keyHangs, `<g transform="translate(13 -6)">${MOST_HUNG}</g>`] as const]
      : []),
  ];
}

function confidenceEntry(): KeyEntry {
  const [highest = 0, ...lower] = KEY_CONFIDENCES;
  const window = `<rect y="2.5" width="11" height="15" fill="${KEEP}" fill-opacity=".12" stroke="${MUTED}"/>`;
  const boxes = lower.map((level, index) => beyondBox(level, 11 + 8 * index, 8));
  return [
    filled(say.keyConfidence, KEY_CONFIDENCES.join(', ')),
    window + withinLine(highest, 6) + boxes.join(''),
  ];
}

function key(entries: readonly KeyEntry[], columns: number): string {
  return entries
    .map(([label, drawn], index) =>
      at(
        (index % columns) * KEY_COLUMN,
        Math.floor(index / columns) * KEY_ROW,
        drawn + text(32, 14, label, { fill: MUTED, size: 11 }),
      ),
    )
    .join('');
}

function patterns(): string {
  const hatch = (id: string, colour: string, turned: number) =>
    `<pattern id="${id}" width="5" height="5" patternUnits="userSpaceOnUse" patternTransform="rotate(${turned})"><line y2="5" stroke="${colour}" stroke-width="1.4"/></pattern>`;
  const dots = (id: string, step: number) =>
    `<pattern id="${id}" width="${step}" height="${step}" patternUnits="userSpaceOnUse"><rect width="1.4" height="1.4" fill="${MUTED}"/></pattern>`;
  return `<defs>${hatch('late', LATE, 45)}${hatch('gas', GAS, -45)}${hatch('short', LACK, 45)}${dots('surplus', 4)}${dots('likely', 5)}</defs>`;
}

interface TextLook {
  readonly size?: number;
  readonly weight?: number;
  readonly fill?: string;
  readonly anchor?: 'middle' | 'end';
}

function text(x: number, y: number, words: string, look: TextLook = {}): string {
  if (words === '') return '';
  const { size, weight, fill = INK, anchor } = look;
  const attributes = [
    size === undefined ? '' : ` font-size="${size}"`,
    weight === undefined ? '' : ` font-weight="${weight}"`,
    anchor === undefined ? '' : ` text-anchor="${anchor}"`,
  ].join('');
  return `<text x="${n(x)}" y="${n(y)}" fill="${fill}"${attributes}>${escaped(words)}</text>`;
}

function at(x: number, y: number, drawn: string): string {
  return `<g transform="translate(${n(x)} ${n(y)})">${drawn}</g>`;
}

/** Two decimals, and no zeros at their end. */
function n(value: number): string {
  return String(Math.round(value * 100) / 100);
}

function wrapped(words: string, most: number): string[] {
  const lines: string[] = [];
  for (const word of words.split(/\s+/)) {
    const last = lines.at(-1);
    if (last !== undefined && last.length + 1 + word.length <= most)
      lines[lines.length - 1] = `${last} ${word}`;
    else lines.push(word);
  }
  return lines;
}

/** Letters that XML has no place for are left out. */
function escaped(words: string): string {
  return words
    .replace(/[^\P{Cc}\n]|\p{Cs}|[\uFFFE\uFFFF]/gu, ' ')
    .replaceAll('&', '&amp;')
    .replaceAll('<', '&lt;')
    .replaceAll('>', '&gt;')
    .replaceAll('"', '&quot;');
}
