import type { FolderOnDisk } from './protocol';

/**
 * What our own client says of its folders as soon as there is a process, before it can speak the protocol: while a window
 * opens the client's own code is read for long, and the plans are computed meanwhile.
 */
export interface Ahead {
  /** All folders of the workspace, in the addresses that the client will give them. */
  readonly folders: readonly string[];
  readonly onDisk: readonly FolderOnDisk[];
  /** The section `lotwright` of the settings. */
  readonly settings: unknown;
}

export interface AheadMessage {
  readonly lotwrightAhead: Ahead;
}

/** What a first message says ahead; undefined for every other message. */
export function aheadIn(message: unknown): Ahead | undefined {
  const { lotwrightAhead: said } = (message ?? {}) as { readonly lotwrightAhead?: Partial<Ahead> | null };
  const { folders, onDisk, settings } = said ?? {};
  if (!Array.isArray(folders) || !Array.isArray(onDisk)) return undefined;
  return { folders: folders.filter((one) => typeof one === 'string'), onDisk, settings };
}
