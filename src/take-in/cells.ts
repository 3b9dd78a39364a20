import { type Day, parseDay, parseWeek, type Week, weekOfDay } from '../plan/dates';
import { fixed } from '../plan/display';
import { dimensions, parseQuantity, toUnit } from '../plan/quantity';
import { type Counted, MOST_COUNTED } from '../plan/schema/most-counted';
import { yearFirst } from '../table/date-order';
import { fieldOf } from './fields';
import type { TableLayout, TableRow } from './types';

/** Thrown for a cell that cannot be read: its message is the reason shown beside the row. */
export class BadCell extends Error {}

/** Reads the cells of one row by the layout's field rules. Every method throws `BadCell`. */
export class RowCells {
  constructor(
    private readonly row: TableRow,
    private readonly layout: TableLayout,
  ) {}

  /** The cell's text; empty where the table has no such column or the cell is empty. */
  text(field: string): string {
    return this.row.fields.get(field) ?? '';
  }

  day(field: string): Day {
    const text = this.text(field);
    const day = parseDay(yearFirst(withoutTime(text), this.layout.dates) ?? '');
    if (day !== undefined) return day;
    throw this.bad(field, text, `a day written ${this.layout.dates.replaceAll('-', ', ')}`);
  }

  /** A week as `2026-W51`, or a day within it. */
  week(field: string): Week {
    const text = this.text(field);
    const day = parseDay(yearFirst(withoutTime(text), this.layout.dates) ?? '');
    const week =
      parseWeek(text.replace(/^(\d{4})[ -]?W(\d{1,2})$/i, weekText)) ??
      (day === undefined ? undefined : weekOfDay(day));
    if (week !== undefined) return week;
    throw this.bad(field, text, 'a week as 2026-W51, or a day in it');
  }

  /** A whole number from 0 on, up to what the plan takes of these. */
  count(of: Counted, field: string): number {
    const value = this.plain(field);
    const most = MOST_COUNTED[of];
    if (value !== undefined && Number.isInteger(value) && value >= 0) {
      if (value <= most) return value;
      throw this.bad(field, this.text(field), `a whole number up to ${fixed(most, 0)}`);
    }
    throw this.bad(field, this.text(field), 'a whole number');
  }

  /** Undefined where the cell is empty. */
  number(field: string): number | undefined {
    if (this.text(field) === '') return undefined;
    const value = this.plain(field);
    if (value !== undefined) return value;
    throw this.bad(field, this.text(field), 'a number');
  }

  /** A quantity as it is to stand in the plan, in its own unit or the layout's; undefined where the cell is empty. */
  quantity(field: string): { readonly value: number; readonly written: string } | undefined {
    const text = this.text(field);
    const rule = fieldOf(this.layout.holds, field);
    if (text === '' || !rule || !(rule.kind in dimensions)) return undefined;
    const dimension = rule.kind as keyof typeof dimensions;
    const unit = this.layout.units.get(field) ?? rule.unit ?? '';
    const bare = this.plain(field);
    const written = bare === undefined ? this.withPoint(text) : `${bare} ${unit}`;
    const quantity = parseQuantity(written, dimension);
    if (!quantity) throw this.bad(field, text, `a ${dimension}, as a number of ${unit} or with its unit`);
    return { value: quantity.value, written: `${quantity.written} ${quantity.unit}` };
  }

  /** A value in the dimension's own unit, written in the unit that the file has it in. */
  writtenLikeFile(field: string, value: number): string {
    const rule = fieldOf(this.layout.holds, field);
    const unit = this.layout.units.get(field) ?? rule?.unit ?? '';
    const shown = toUnit(value, rule?.kind as keyof typeof dimensions, unit);
    return `${Math.round(shown * 10) / 10} ${unit}`;
  }

  private plain(field: string): number | undefined {
    const text = this.withPoint(this.text(field));
    return /^[+-]?(\d+(\.\d+)?|\.\d+)$/.test(text) ? Number(text) : undefined;
  }

  /** With a point as the decimal mark, and without spaces or points between thousands. */
  private withPoint(text: string): string {
    const { decimal } = this.layout;
    const [mark, thousands] =
      decimal === 'comma'
        ? [',', /(?<=\d)[. \u00a0\u202f](?=\d{3}(\D|$))/g]
        : ['.', /(?<=\d)[, \u00a0\u202f](?=\d{3}(\D|$))/g];
    return text.replace(thousands, '').replace(mark, '.');
  }

  private bad(field: string, text: string, wanted: string): BadCell {
    return new BadCell(`"${text}" in column "${this.layout.columns.get(field)}" is not ${wanted}.`);
  }
}

function weekText(_: string, year: string, week: string): string {
  return `${year}-W${week.padStart(2, '0')}`;
}

/** A time of day behind a date says nothing here. */
function withoutTime(text: string): string {
  return text.replace(/[T ]\d{1,2}:\d{2}.*$/, '');
}
