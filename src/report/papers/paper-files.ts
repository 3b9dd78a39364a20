import { calendarIdentity, calendarText, IDENTITY } from './calendar';
import { type PreviousCalendar, readCalendar } from './calendar-issue';
import { csvHeading, csvLines, csvText } from './csv';
import type { Form, PaperFile, Shape } from './forms';
import { htmlText } from './html';
import { papersReport } from './json';
import { markdownText } from './markdown';
import { writtenFor } from './marks';
import type { Paper } from './paper';
import { workbookBytes } from './workbook';

const ENDINGS: Readonly<Record<Form, string>> = {
  markdown: 'md',
  html: 'html',
  csv: 'csv',
  workbook: 'xlsx',
  calendar: 'ics',
  json: 'json',
};

/** The files that papers make in a form: one a paper, of CSV one a table. */
export function filesOf(papers: readonly Paper[], form: Form, shape: Shape): PaperFile[] {
  const bases = baseNames(papers);
  return papers.flatMap((paper, index) => {
    const base = bases[index] ?? paper.reader;
    return form === 'csv' ? csvFiles(paper, base, shape) : [paperFile(paper, base, form, shape)];
  });
}

function csvFiles(paper: Paper, base: string, { table: wanted }: Shape): PaperFile[] {
  return paper.tables
    .filter(({ key }) => wanted === undefined || key === wanted)
    .map((table) => ({
      name: `${base}-${table.key}.csv`,
      content: () => csvText(table),
      isEarlier: (text) =>
        withoutUnits(text.split('\n')[0] ?? '') === withoutUnits(csvLines([csvHeading(table)])),
    }));
}

/** An issue in other units is the same table. */
function withoutUnits(line: string): string {
  return line.replace(/ \([^)]*\)/g, '').trim();
}

function paperFile(paper: Paper, base: string, form: Exclude<Form, 'csv'>, shape: Shape): PaperFile {
  const name = `${base}.${ENDINGS[form]}`;
  const calendarOf = calendarIdentity(paper);
  const marked = (mark: string) => (text: string) => text.includes(mark);
  switch (form) {
    case 'markdown':
      return { name, content: () => markdownText(paper), isEarlier: marked(writtenFor(paper.reader)) };
    case 'html':
      return {
        name,
        content: () => htmlText(paper, shape.size),
        isEarlier: marked(writtenFor(paper.reader)),
      };
    case 'workbook':
      return { name, content: () => workbookBytes([paper]), isEarlier: marked(writtenFor(paper.reader)) };
    case 'json':
      return {
        name,
        content: () => `${JSON.stringify(papersReport(paper), null, 2)}\n`,
        isEarlier: (text) =>
          text.includes('"lotwright-papers-report"') && text.includes(`"for": "${paper.reader}"`),
      };
    case 'calendar':
      return {
        name,
        content: (previous) => calendarText(paper, { stamp: shape.stamp, previous }),
        isEarlier: (text) => calendarBefore(text).identity === calendarOf,
        calendarOf,
      };
  }
}

export function calendarBefore(text: string): PreviousCalendar {
  return readCalendar(text, IDENTITY);
}

/** `sales`, `grower-hollow-farm`; growers whose names come to the same get a number. */
function baseNames(papers: readonly Paper[]): string[] {
  const taken = new Set<string>();
  return papers.map(({ reader, grower }) => {
    const wanted = grower === undefined ? reader : `grower-${plainName(grower) || 'not-told'}`;
    let name = wanted;
    for (let number = 2; taken.has(name); number += 1) name = `${wanted}-${number}`;
    taken.add(name);
    return name;
  });
}

/** A name as a file may have it everywhere: letters without marks, digits, hyphens. */
function plainName(text: string): string {
  return text
    .normalize('NFKD')
    .replace(/\p{Mark}/gu, '')
    .toLowerCase()
    .replace(/[^\p{Letter}\p{Number}]+/gu, '-')
    .replace(/^-+|-+$/g, '')
    .slice(0, 60);
}
