import type { FileLayout, ReadingsLayout, TableLayout } from '../table-model';
import type { MapReader } from './map-reader';

type Body<T> = Omit<T, 'id' | 'at' | 'places'>;

export function readTableLayout(map: MapReader): Body<TableLayout> {
  return { holds: map.word('holds'), ...readLayout(map) };
}

export function readReadingsLayout(map: MapReader): Body<ReadingsLayout> {
  return { file: map.givenText('file'), ...readLayout(map) };
}

function readLayout(map: MapReader): Body<FileLayout> {
  return {
    columns: texts(map.map('columns')),
    separator: map.word('separator') ?? 'comma',
    decimal: map.word('decimal') ?? 'point',
    dates: map.word('dates') ?? 'year-month-day',
    units: texts(map.map('units')),
    names: new Map(
      (map.map('names')?.keys() ?? []).map(({ value }) => [value, texts(map.map('names')?.map(value))]),
    ),
  };
}

function texts(map: MapReader | undefined): ReadonlyMap<string, string> {
  return new Map(
    (map?.keys() ?? []).flatMap(({ value: key }) => {
      const text = map?.text(key);
      return text === undefined ? [] : [[key, text] as const];
    }),
  );
}
