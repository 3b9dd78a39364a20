import type { Problem } from '../problem';
import type { Node } from './nodes';

/** What reading a chunk's YAML gave, by the small parser or the full one. */
export interface ParsedChunk {
  /** Undefined where there is nothing, or nothing could be read. */
  readonly root: Node | undefined;
  /** Places are relative to the chunk; their file is empty. */
  readonly problems: readonly Problem[];
  /** On how many lines the full reader found something wrong, counted up to a few; undefined where nothing is. */
  readonly wrongLines?: number;
}
