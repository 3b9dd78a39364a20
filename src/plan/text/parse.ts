import type { Problem } from '../problem';
import { fullParse } from './full-parse';
import type { Node } from './nodes';
import { quickParse } from './quick-parse';

export interface ParsedChunk {
  /** Undefined where there is nothing, or nothing could be read. */
  readonly root: Node | undefined;
  /** Places are relative to the chunk; their file is empty. */
  readonly problems: readonly Problem[];
}

/** Reads a chunk's YAML. Never throws. */
export function parseChunk(text: string): ParsedChunk {
  const root = quickParse(text);
  return root ? { root, problems: [] } : fullParse(text);
}

/** The same where problems are not to be told any more: what the small parser cannot read is left. */
export function parseBriefly(text: string): ParsedChunk {
  return { root: quickParse(text), problems: [] };
}
