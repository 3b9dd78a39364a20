import { type Disk, leftOutBy, walkedFiles } from './disk/walked-files';
import type { FileSource } from './file-source';
import { PLAN_FILE_ENDING } from './plan-roots';
import type { FolderOnDisk } from './protocol';

/** A disk, and where on it an address leads. */
export interface AddressedDisk extends Disk {
  pathOf(uri: string): string;
}

/**
 * The client's files as they are when a window opens: what lies on a disk that is seen from here is found and read here,
 * and has the very addresses that the client would give it. The client is asked for the rest; undefined where that is
 * all of it.
 */
export function openingFiles(
  client: FileSource,
  disk: AddressedDisk | undefined,
  folders: readonly FolderOnDisk[] | undefined,
): Pick<FileSource, 'find' | 'read'> | undefined {
  if (!disk || !Array.isArray(folders)) return undefined;
  const exclude = new Map(folders.map((one: Partial<FolderOnDisk> | null) => [one?.folder, one?.exclude]));
  const paths = new Map<string, string>();
  const found = async (folder: string): Promise<string[] | undefined> => {
    const isLeftOut = leftOutBy(exclude.get(folder) ?? { unknown: true });
    return (
      isLeftOut &&
      walkedFiles(folder, PLAN_FILE_ENDING, isLeftOut, {
        list: (at) => disk.list(disk.pathOf(at)),
        below: (at, name) => `${at.replace(/\/$/, '')}/${encoded(name)}`,
      })
    );
  };
  const readOrNull = async (file: string) => {
    try {
      // The decoder drops a byte order mark, as the editor does.
      return new TextDecoder().decode(await disk.read(file));
    } catch {
      return null;
    }
  };
  return {
    find: async (folder) => {
      // A name that is no address leaves it to the client.
      const uris = await found(folder).catch(() => undefined);
      for (const uri of uris ?? []) paths.set(uri, disk.pathOf(uri));
      return uris ?? client.find(folder);
    },
    read: async (uris) => {
      const others = uris.filter((uri) => !paths.has(uri));
      const told = others.length > 0 ? await client.read(others) : [];
      const texts = new Map(others.map((uri, at) => [uri, told[at] ?? null]));
      return Promise.all(
        uris.map((uri) => {
          const file = paths.get(uri);
          return file === undefined ? (texts.get(uri) ?? null) : readOrNull(file);
        }),
      );
    },
  };
}

/** A name as the editor writes it in an address: all but letters, digits and `-._~` is escaped. */
function encoded(name: string): string {
  const escaped = (letter: string) => `%${letter.charCodeAt(0).toString(16).toUpperCase()}`;
  return encodeURIComponent(name).replaceAll(/[!'()*]/g, escaped);
}
