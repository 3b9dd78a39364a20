/** Server to client. GrownParams -> GrownText | null where the file cannot be read. */
export const readGrownRequest = 'lotwright/readGrown';

/** Where reading a file came to: its bytes up to there, and a number made of all of them. */
export interface ReadUpTo {
  readonly bytes: number;
  readonly check: number;
}

export interface GrownParams {
  readonly uri: string;
  /** What is known of it. Left out, the whole file is wanted. */
  readonly known?: ReadUpTo | undefined;
}

/** A file's text, or what has been added to it since it was read last. */
export interface GrownText {
  /** The text goes on from what was known; else it is the whole file's. */
  readonly goesOn: boolean;
  /** Whole lines. */
  readonly lines: string;
  /** A last line that has not ended: it is told again the next time. */
  readonly rest: string;
  readonly upTo: ReadUpTo;
}

const LINE_FEED = 10;
const START = 0x811c9dc5;

/** What a file's bytes add to what is known of them; all of it where they no longer begin with that. */
export function grownText(bytes: Uint8Array, known: ReadUpTo | undefined): GrownText {
  const end = bytes.lastIndexOf(LINE_FEED) + 1;
  const goesOn =
    known !== undefined && known.bytes <= end && checkOf(bytes, 0, known.bytes, START) === known.check;
  const from = goesOn ? known.bytes : 0;
  const decoder = new TextDecoder('utf-8', { ignoreBOM: goesOn });
  return {
    goesOn,
    lines: decoder.decode(bytes.subarray(from, end)),
    rest: new TextDecoder('utf-8', { ignoreBOM: end > 0 }).decode(bytes.subarray(end)),
    upTo: { bytes: end, check: checkOf(bytes, from, end, goesOn ? known.check : START) },
  };
}

/** FNV-1a of 32 bits, which goes on from what it came to before. */
function checkOf(bytes: Uint8Array, from: number, until: number, before: number): number {
  let check = before;
  for (let at = from; at < until; at++) check = Math.imul(check ^ (bytes[at] ?? 0), 0x01000193);
  return check >>> 0;
}
