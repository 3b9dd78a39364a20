import type { GrownText, ReadUpTo } from './protocol-grown';

/** Where plan files that are not open come from: a disk, or the editor's own file systems. */
export interface FileSource {
  /** Addresses of the plan files in the folder and below it. An unreadable folder has none. */
  find(folder: string): Promise<string[]>;
  /** Texts in the order asked for; null for a file that cannot be read. */
  read(uris: readonly string[]): Promise<(string | null)[]>;
  /** A file's text, or what has been added to it since it was read up to there; null for a file that cannot be read. */
  grown(uri: string, known: ReadUpTo | undefined): Promise<GrownText | null>;
}

/** A server that nobody gives files sees open documents only. */
export const NO_FILES: FileSource = {
  find: async () => [],
  read: async (uris) => uris.map(() => null),
  grown: async () => null,
};
