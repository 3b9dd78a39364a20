import type { Reader } from './paper';

/** Stands in every file that has a place for it, so that a later issue may be written over it and nothing else is. */
export function writtenFor(reader: Reader): string {
  return `Written by lotwright papers for ${reader}.`;
}

export const NOTHING_OF_KIND = 'Nothing.';
