import type { CardLesson, CardTable, RoomCard, SeasonCard } from '../src/report/card-types';
import type { TimelineRow, TimelineView } from '../src/report/timeline-types';

/** The server's view models with their texts in another language. Names, keys and codes stay what they are. */

type Translate = (text: string) => string;
type TranslateFinding = (code: string, message: string) => string;

export function viewIn(view: TimelineView, say: Translate, finding: TranslateFinding): TimelineView {
  const told = <T extends { readonly description: string }>(one: T): T => ({
    ...one,
    description: say(one.description),
  });
  return {
    ...view,
    title: view.title === UNNAMED ? say(view.title) : view.title,
    ...(view.empty !== undefined && { empty: say(view.empty) }),
    months: view.months.map((month) => ({ ...month, label: say(month.label) })),
    columns: view.columns.map(say),
    rows: view.rows.map((row) => rowIn(row, say, finding)),
    supply: view.supply.map((series) => ({
      ...told(series),
      name: say(series.name),
      unit: say(series.unit),
    })),
    scrubbers: view.scrubbers.map(told),
    ...(view.loads && {
      loads: view.loads.map((band) => ({
        ...band,
        title: say(band.title),
        what: say(band.what),
        series: band.series.map((series) => ({ ...told(series), name: say(series.name) })),
      })),
    }),
    ...(view.against && { against: { label: view.against.label, note: say(view.against.note) } }),
    ...(view.drawn && { drawn: { ...view.drawn, note: say(view.drawn.note) } }),
    scheduleNote: say(view.scheduleNote),
    caution: say(view.caution),
  };
}

/** What the server calls a plan that has no name of its own. */
const UNNAMED = 'Room timeline';

function rowIn(row: TimelineRow, say: Translate, finding: TranslateFinding): TimelineRow {
  const [name = '', ...others] = row.cells;
  return {
    ...row,
    varieties: row.key.startsWith('room:') ? say(row.varieties) : row.varieties,
    bins: say(row.bins),
    description: say(row.description),
    cells: [name, ...others.map(say)],
    ...(row.hangs && { hangs: { ...row.hangs, text: say(row.hangs.text) } }),
    ...(row.marks && { marks: row.marks.map((mark) => ({ ...mark, text: finding('', mark.text) })) }),
  };
}

export function roomCardIn(card: RoomCard, say: Translate, finding: TranslateFinding): RoomCard {
  return {
    ...card,
    title: say(card.title),
    description: say(card.description),
    days: card.days.map(say),
    months: card.months.map((month) => ({ ...month, label: say(month.label) })),
    events: card.events.map((event) => ({ ...event, what: say(event.what) })),
    charts: card.charts.map((chart) => ({
      ...chart,
      title: say(chart.title),
      description: say(chart.description),
      lines: chart.lines.map((line) => ({ ...line, name: say(line.name) })),
    })),
    facts: card.facts.map(({ title, facts }) => ({
      title: say(title),
      facts: facts.map((fact) => ({ ...fact, label: say(fact.label), value: say(fact.value) })),
    })),
    lots: tableIn(card.lots, say),
    findings: card.findings.map((one) => ({ ...one, message: finding(one.code, one.message) })),
    notes: card.notes.map(say),
    caution: say(card.caution),
  };
}

export function lessonsIn(lessons: readonly CardLesson[], say: Translate): CardLesson[] {
  return lessons.map((lesson) => ({
    ...lesson,
    title: say(lesson.title),
    line: say(lesson.line),
    pictures: lesson.pictures.map((picture) => ({
      ...picture,
      title: say(picture.title),
      points: picture.points.map((point) => {
        const [seen, fitted, limits] = point.texts;
        return { ...point, label: say(point.label), texts: [say(seen), say(fitted), say(limits)] as const };
      }),
    })),
    remarks: lesson.remarks.map(say),
  }));
}

export function seasonCardIn(card: SeasonCard, say: Translate, finding: TranslateFinding): SeasonCard {
  return {
    ...card,
    scheduleNote: say(card.scheduleNote),
    gauges: card.gauges.map((gauge) => ({ ...gauge, label: say(gauge.label), text: say(gauge.text) })),
    tables: card.tables.map((table) => tableIn(table, say)),
    findings: card.findings.map((one) => ({ ...one, message: finding(one.code, one.message) })),
    caution: say(card.caution),
  };
}

function tableIn(table: CardTable, say: Translate): CardTable {
  return {
    title: say(table.title),
    columns: table.columns.map(say),
    lines: table.lines.map((line) => {
      // The first cell is a name of the plan.
      const [name = '', ...others] = line.cells;
      return { ...line, cells: [name, ...others.map(say)] };
    }),
    none: say(table.none),
  };
}
