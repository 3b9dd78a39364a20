/** As the editor tells what stands in a folder: its name, and what it is. */
export type Listed = readonly [name: string, kind: number];

/** What the editor calls a file, a folder, and what leads to either from elsewhere. */
export const KIND = { file: 1, folder: 2, link: 64 } as const;

/** So many folders are looked into; where there are more, the editor's own search is sooner done. */
const MOST_FOLDERS = 500;
/** Nobody writes a plan there. */
const NOT_OURS = 'node_modules';

/** A disk, by paths. What it cannot do rejects. */
export interface Disk {
  list(folder: string): Promise<readonly Listed[]>;
  read(file: string): Promise<Uint8Array>;
}

/** Folders that are looked into by `list`; `below` is one within another. */
export interface Folders<Place> {
  list(folder: Place): Promise<readonly Listed[]>;
  below(folder: Place, name: string): Place;
}

/**
 * All files below a folder whose name ends so, but what is left out by its name. Undefined where that is not for
 * looking through: there are too many folders, or some lead elsewhere. What cannot be listed holds nothing.
 */
export async function walkedFiles<Place>(
  root: Place,
  ending: string,
  isLeftOut: (name: string) => boolean,
  { list, below }: Folders<Place>,
): Promise<Place[] | undefined> {
  const found: Place[] = [];
  let folders = [root];
  for (let seen = folders.length; folders.length > 0; seen += folders.length) {
    if (seen > MOST_FOLDERS) return undefined;
    const listed = await Promise.all(
      folders.map(async (folder) => ({ folder, entries: await list(folder).catch(() => []) })),
    );
    folders = [];
    for (const { folder, entries } of listed)
      for (const [name, kind] of entries) {
        if (name === NOT_OURS || isLeftOut(name)) continue;
        if (kind & KIND.folder) {
          if (kind & KIND.link) return undefined;
          folders.push(below(folder, name));
        } else if (kind & KIND.file && name.endsWith(ending)) found.push(below(folder, name));
      }
  }
  return found;
}

/**
 * What the setting `files.exclude` leaves out wherever it stands, by its name or its name's ending; undefined where the
 * setting says more than that, or asks what stands beside it.
 */
export function leftOutBy(
  exclude: Readonly<Record<string, unknown>>,
): ((name: string) => boolean) | undefined {
  const names = new Set<string>();
  const endings: string[] = [];
  for (const [pattern, value] of Object.entries(exclude)) {
    if (value === false) continue;
    const [, any, name] = /^\*\*\/(\*?)([^*?{}[\]/]+)\/?$/.exec(pattern) ?? [];
    if (value !== true || name === undefined) return undefined;
    if (any) endings.push(name);
    else names.add(name);
  }
  return (name) => names.has(name) || endings.some((ending) => name.endsWith(ending));
}
