import { cellText, heading } from './cell-text';
import type { PaperCell, PaperColumn } from './paper';
import type { Sheet } from './sheets';
import { FORMAT } from './workbook-styles';
import { xmlText } from './xml';

const MAIN = 'http://schemas.openxmlformats.org/spreadsheetml/2006/main';

/** Serial number of 1970-01-01 in the calendar of 1900. */
const EPOCH_SERIAL = 25_569;

const LEAST_WIDTH = 8;
const MOST_WIDTH = 48;
/** A line of a caution over the whole width, in points. */
const LINE_HEIGHT = 14;

/** The texts of a workbook, each once. */
export class SharedTexts {
  readonly #indexes = new Map<string, number>();
  #count = 0;

  indexOf(text: string): number {
    this.#count += 1;
    const known = this.#indexes.get(text);
    if (known !== undefined) return known;
    this.#indexes.set(text, this.#indexes.size);
    return this.#indexes.size - 1;
  }

  xml(): string {
    const all = [...this.#indexes.keys()].map(
      (text) => `<si><t xml:space="preserve">${sheetText(text)}</t></si>`,
    );
    return `<sst xmlns="${MAIN}" count="${this.#count}" uniqueCount="${all.length}">${all.join('')}</sst>`;
  }
}

/** Title, cautions, headings that stay in sight, rows. */
export function sheetXml({ title, cautions, table, headingRow }: Sheet, texts: SharedTexts): string {
  const { columns, rows } = table;
  const widths = columns.map((column, index) => widthOf(column, rows, index));
  const lastColumn = columnName(columns.length - 1);
  const lastRow = headingRow + rows.length;
  const wide = widths.reduce((sum, width) => sum + width, 0);
  const textCell = (row: number, text: string, format: number) =>
    `<c r="A${row}" s="${format}" t="s"><v>${texts.indexOf(text)}</v></c>`;
  const merges = cautions.map((_, index) => `<mergeCell ref="A${index + 2}:${lastColumn}${index + 2}"/>`);
  const body = [
    `<row r="1">${textCell(1, title, FORMAT.title)}</row>`,
    ...cautions.map((caution, index) => {
      const height = LINE_HEIGHT * Math.ceil((1.15 * caution.length) / wide);
      return `<row r="${index + 2}" ht="${height}" customHeight="1">${textCell(index + 2, caution, FORMAT.caution)}</row>`;
    }),
    `<row r="${headingRow}">${columns
      .map((column, index) => sharedCell(cellName(index, headingRow), heading(column), FORMAT.heading, texts))
      .join('')}</row>`,
    ...rows.map((row, index) => {
      const number = headingRow + 1 + index;
      const cells = columns.map((column, at) =>
        cellXml(cellName(at, number), column, row[at] ?? null, texts),
      );
      return `<row r="${number}">${cells.join('')}</row>`;
    }),
  ];
  return [
    `<worksheet xmlns="${MAIN}">`,
    '<sheetPr><pageSetUpPr fitToPage="1"/></sheetPr>',
    `<dimension ref="A1:${lastColumn}${lastRow}"/>`,
    `<sheetViews><sheetView workbookViewId="0"><pane ySplit="${headingRow}" topLeftCell="A${headingRow + 1}" activePane="bottomLeft" state="frozen"/></sheetView></sheetViews>`,
    `<cols>${widths.map((width, index) => `<col min="${index + 1}" max="${index + 1}" width="${width}" customWidth="1"/>`).join('')}</cols>`,
    `<sheetData>${body.join('')}</sheetData>`,
    `<autoFilter ref="A${headingRow}:${lastColumn}${lastRow}"/>`,
    merges.length > 0 ? `<mergeCells count="${merges.length}">${merges.join('')}</mergeCells>` : '',
    '<pageSetup orientation="landscape" fitToWidth="1" fitToHeight="0"/>',
    '</worksheet>',
  ].join('');
}

function cellXml(name: string, column: PaperColumn, cell: PaperCell, texts: SharedTexts): string {
  if (cell === null || (Array.isArray(cell) && cell.length === 0)) return '';
  if (typeof cell === 'number' && column.kind === 'number')
    return `<c r="${name}" s="${numberFormat(column)}"><v>${Number(cell.toPrecision(12))}</v></c>`;
  if (typeof cell === 'number' && column.kind === 'day')
    return `<c r="${name}" s="${FORMAT.day}"><v>${cell + EPOCH_SERIAL}</v></c>`;
  return sharedCell(name, cellText(column, cell), FORMAT.wrapped, texts);
}

function sharedCell(name: string, text: string, format: number, texts: SharedTexts): string {
  return `<c r="${name}" s="${format}" t="s"><v>${texts.indexOf(text)}</v></c>`;
}

function numberFormat({ decimals = 0 }: PaperColumn): number {
  if (decimals === 0) return FORMAT.whole;
  return decimals === 1 ? FORMAT.tenths : FORMAT.hundredths;
}

function widthOf(column: PaperColumn, rows: Sheet['table']['rows'], index: number): number {
  const cells = rows.map((row) => cellText(column, row[index] ?? null).length);
  const words = heading(column)
    .split(' ')
    .map((word) => word.length);
  const longest = cells.reduce((most, length) => Math.max(most, length), Math.max(...words));
  return Math.min(MOST_WIDTH, Math.max(LEAST_WIDTH, longest + 2));
}

/** Text of a cell. What reads as an escape of a character (`_x000D_`) is escaped itself. */
function sheetText(text: string): string {
  return xmlText(text.replace(/_(?=x[0-9A-Fa-f]{4}_)/g, '_x005F_')).replaceAll('\r', '_x000D_');
}

function cellName(column: number, row: number): string {
  return `${columnName(column)}${row}`;
}

/** `A` to `Z`, then `AA`. */
function columnName(index: number): string {
  const letter = String.fromCharCode(65 + (index % 26));
  return index < 26 ? letter : columnName(Math.floor(index / 26) - 1) + letter;
}
