import { fullParse } from './full-parse';
import type { ParsedChunk } from './parsed-chunk';
import { quickParse } from './quick-parse';

/** Reads a chunk's YAML. Never throws. */
export function parseChunk(text: string): ParsedChunk {
  const root = quickParse(text);
  return root ? { root, problems: [] } : fullParse(text);
}

/** The same where problems are not to be told any more: what the small parser cannot read is left. */
export function parseBriefly(text: string): ParsedChunk {
  return { root: quickParse(text), problems: [] };
}
