import { decimalsApart, type Measure, measureLabel, showMeasure } from '../plan/display';
import { counted } from '../plan/wording';
import { noPaint, type Paint } from './paint';
import type { LearnReport } from './schemas';
import { type Column, PAGE_WIDTH, table, wrap } from './table';

type LessonJson = LearnReport['lessons'][number];

type Part = NonNullable<LessonJson['values'][number]['parts']>[number];

/** Of the largest part of an interval: what is less changes no digit of it. */
const LEAST_PART = 0.02;

const OVERVIEW: readonly Column[] = [
  { title: 'Lesson' },
  { title: 'Value', breaks: true },
  { title: 'Plan', align: 'right' },
  { title: 'Fitted', align: 'right' },
  { title: '95 %', align: 'right' },
  { title: '' },
];

/** The report for people: a line for each fitted value, or all of the lessons asked for. */
export function learnText(report: LearnReport, detailed: boolean, paint: Paint = noPaint): string {
  const body = detailed
    ? report.lessons.flatMap((lesson) => lessonText(lesson, paint))
    : overviewText(report, paint);
  return [
    ...body,
    ...togetherText(report),
    ...notText(report, paint),
    ...endText(report, detailed),
    '',
    ...wrap(report.caution, PAGE_WIDTH),
  ].join('\n');
}

function overviewText({ lessons }: LearnReport, paint: Paint): string[] {
  const rows = lessons.flatMap(({ id, values, written }) =>
    values.map((value, index) => {
      const { low, high } = value.fitted;
      const more = value.before ? decimalsApart(value.before, [low, high]) : 0;
      return [
        index === 0 ? id : '',
        value.name,
        value.before ? withUnit(value.before, more) : '',
        withUnit(value.fitted.value, more),
        `${showMeasure(low, more)} to ${showMeasure(high, more)}`,
        written ? paint.good('written') : value.told ? paint.warning('differs') : '',
      ];
    }),
  );
  return rows.length === 0 ? [] : [...table(OVERVIEW, rows), ''];
}

function lessonText(lesson: LessonJson, paint: Paint): string[] {
  return [
    paint.bold(lesson.id),
    '',
    ...overviewOf(lesson, paint),
    ...partsText(lesson),
    ...lesson.series.flatMap(seriesText),
    ...consequencesText(lesson),
    ...effectsText('Taking it in changes of the season:', lesson.effects),
    ...lesson.remarks.flatMap((remark) => wrap(remark, PAGE_WIDTH)),
    '',
    ...wrap(
      `${lesson.written ? 'Written' : 'Would be written'} in ${lesson.writes.file}, ${lesson.section} ${lesson.entry}:`,
      PAGE_WIDTH,
    ),
    ...wrap(`  ${lesson.writes.key}: ${lesson.writes.value}`, PAGE_WIDTH, '    '),
    '',
  ];
}

function overviewOf(lesson: LessonJson, paint: Paint): string[] {
  return overviewText({ lessons: [lesson] } as unknown as LearnReport, paint);
}

function partsText({ values }: LessonJson): string[] {
  const rows = values.flatMap(({ parts = [] }) => {
    const size = ({ below, above }: Part) => Math.max(below.value, above.value);
    const largest = Math.max(...parts.map(size));
    return parts
      .filter((part) => size(part) > LEAST_PART * largest)
      .map(({ cause, below, above }) => [
        CAUSES[cause] ?? cause,
        `-${showMeasure(below)}`,
        `+${showMeasure(above)}`,
      ]);
  });
  if (rows.length === 0) return [];
  const columns = [
    { title: 'What the interval is made of' },
    { title: 'below', align: 'right' as const },
    { title: 'above', align: 'right' as const },
  ];
  return [...table(columns, rows), ''];
}

const CAUSES: Readonly<Record<string, string>> = {
  'between spans': 'rests differ from one another',
  'respiratory quotient': 'respiratory quotient of 1.03 to 1.15',
  'sensor drift': 'drift of the sensors between checks',
  calibration: 'calibration of the sensors',
  'coarse steps': 'coarse steps of what the sensors show',
  leak: 'leak by the pressure test',
};

function seriesText({ name, points }: LessonJson['series'][number]): string[] {
  const unit = points[0]?.fitted.value.unit ?? '';
  const columns: Column[] = [
    {
      title: `${name.slice(0, 1).toUpperCase()}${name.slice(1)}`,
      ...(unit === '' ? {} : { unit: measureLabel(unit) }),
    },
    { title: 'Seen', align: 'right' },
    { title: 'Fitted', align: 'right' },
    { title: '95 %', align: 'right' },
  ];
  const rows = points.map(({ from, to, about, seen, fitted: { value, low, high } }) => [
    `${from === to ? from : `${from} to ${to}`}${about === undefined ? '' : `, ${about}`}`,
    seen ? showMeasure(seen) : '',
    showMeasure(value),
    low.value === high.value ? '' : `${showMeasure(low)} to ${showMeasure(high)}`,
  ]);
  return [...table(columns, rows), ''];
}

function consequencesText({ consequences, kind }: LessonJson): string[] {
  if (consequences.length === 0) return [];
  const rows = consequences.map(({ what, before, after }) => [what, either(before), either(after)]);
  const columns: Column[] = [
    { title: `If every lesson on ${kind} is taken`, breaks: true },
    { title: 'Now', align: 'right' },
    { title: 'Then', align: 'right' },
  ];
  return [...table(columns, rows), ''];
}

type EffectJson = NonNullable<LessonJson['effects']>[number];

/** Effects that are told in a text: what follows after them is in the JSON. */
const MOST_EFFECTS = 12;

function effectsText(title: string, effects: readonly EffectJson[] | undefined): string[] {
  if (!effects) return [];
  if (effects.length === 0) return [...wrap(`${title} ${NOTHING}`, PAGE_WIDTH), ''];
  const more = effects.length - MOST_EFFECTS;
  return [
    ...wrap(title, PAGE_WIDTH),
    ...effects
      .slice(0, MOST_EFFECTS)
      .flatMap(({ direction, text }) => wrap(`  ${marked(direction)}${text}`, PAGE_WIDTH, '    ')),
    ...(more > 0 ? [`  and ${counted(more, 'thing')} more`] : []),
    '',
  ];
}

const NOTHING =
  'no window, no opening week, no order and no finding, and no load by as much as the plan tells apart.';

function marked(direction: EffectJson['direction']): string {
  return direction === 'neither' ? '' : `${direction}: `;
}

/** Lessons that differ are best judged together: what one moves, another may move back. */
function togetherText({ together }: LearnReport): string[] {
  if (!together) return [];
  const which =
    together.lessons.length > MOST_NAMED ? `${together.lessons.length} lessons` : together.lessons.join(', ');
  return effectsText(`Taking in ${which} together changes of the season:`, together.effects);
}

const MOST_NAMED = 4;

function either(value: Measure | string): string {
  return typeof value === 'string' ? value : withUnit(value);
}

function withUnit(value: Measure, more = 0): string {
  return `${showMeasure(value, more)} ${measureLabel(value.unit)}`.trim();
}

function notText({ notLearned }: LearnReport, paint: Paint): string[] {
  if (notLearned.length === 0) return [];
  const lines = notLearned.flatMap(({ kind, entry, reason }) =>
    wrap(`${paint.warning(`${kind} of ${entry}`)}: ${reason}`, PAGE_WIDTH, '  '),
  );
  return ['Nothing can be told of:', ...lines, ''];
}

function endText({ lessons }: LearnReport, detailed: boolean): string[] {
  if (lessons.length === 0)
    return wrap(
      'What is recorded teaches nothing that would change the plan: lessons come of readings of sealed rooms, samples, packed runs, and receipts that differ from the estimates of lots alike.',
      PAGE_WIDTH,
    );
  const written = lessons.filter((lesson) => lesson.written).length;
  if (written > 0)
    return [`${written === 1 ? 'The lesson is' : `The ${written} lessons are`} in the plan now.`];
  const more = detailed ? '' : ' See one with --of <lesson>.';
  return wrap(
    `Nothing is written. Take what you will into the plan with --write <lesson>.${more}`,
    PAGE_WIDTH,
  );
}
