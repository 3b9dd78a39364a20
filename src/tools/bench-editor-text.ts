/** The plans that the editor's benchmark edits: generated seasons, all their files as one text or as a folder. */
import { FULL_SEASON, generateSeason } from '../../tests/generate/season';

export interface EditorSize {
  readonly lots: number;
  readonly rooms: number;
}

/** Lots by rooms of stores from small to very large. */
export const SIZES: readonly EditorSize[] = [
  { lots: 60, rooms: 12 },
  { lots: 400, rooms: 60 },
  { lots: 3000, rooms: 200 },
  { lots: 20_000, rooms: 500 },
];

const LOT = /^ {2}([A-Z]+-\d+): \{[^}]*(?:\{[^}]*\}[^}]*)*\}\n/gm;

/** Sections by name, each with its lines; a season that has `lots` lots, or as many as its rooms have at least. */
export function seasonSections({ lots, rooms }: EditorSize): Map<string, string> {
  const sections = sectionsOf(generateSeason({ rooms, seed: FULL_SEASON.seed }).map(({ text }) => text));
  const written = sections.get('lots') ?? '';
  const ids = [...written.matchAll(LOT)].map((match) => match[1] ?? '');
  const parts = partsOf(ids, lots);
  const split = written.replace(LOT, (entry, id: string) => splitLot(entry, id, parts.get(id) ?? 1));
  sections.set('lots', split);
  sections.set('fills', splitInFills(sections.get('fills') ?? '', parts));
  return sections;
}

/** All of it in one file. */
export function oneText(sections: ReadonlyMap<string, string>): string {
  return `lotwright: 1\n\n${[...sections].map(([name, body]) => `${name}:\n${body}`).join('\n')}`;
}

function sectionsOf(texts: readonly string[]): Map<string, string> {
  const sections = new Map<string, string>();
  for (const text of texts) {
    let section: string | undefined;
    for (const line of text.split('\n')) {
      const name = /^([a-z]+):/.exec(line)?.[1];
      if (name) section = name === 'lotwright' ? undefined : name;
      else if (section && line.startsWith(' '))
        sections.set(section, `${sections.get(section) ?? ''}${line}\n`);
    }
  }
  return sections;
}

/** Into how many lots each is split, so that there are as many as wanted. */
function partsOf(ids: readonly string[], wanted: number): Map<string, number> {
  const each = Math.max(1, Math.floor(wanted / ids.length));
  const more = Math.max(0, wanted - each * ids.length);
  return new Map(ids.map((id, index) => [id, index < more ? each + 1 : each]));
}

function splitLot(entry: string, id: string, parts: number): string {
  const one = (part: number) =>
    entry
      .replace(id, partId(id, part))
      .replace(
        /\b(bins|received): (\d+)/g,
        (_, key: string, bins: string) => `${key}: ${share(Number(bins), parts, part)}`,
      );
  return Array.from({ length: parts }, (_, part) => one(part)).join('');
}

function splitInFills(fills: string, parts: ReadonlyMap<string, number>): string {
  return fills.replace(/\b([A-Z]+-\d+): (\d+)/g, (_, id: string, bins: string) => {
    const count = parts.get(id) ?? 1;
    return Array.from(
      { length: count },
      (__, part) => `${partId(id, part)}: ${share(Number(bins), count, part)}`,
    ).join(', ');
  });
}

function partId(id: string, part: number): string {
  return part === 0 ? id : `${id}-${part + 1}`;
}

/** Bins of one part; every part has at least one. */
function share(bins: number, parts: number, part: number): number {
  const each = Math.floor(bins / parts);
  return Math.max(1, part < bins - each * parts ? each + 1 : each);
}
