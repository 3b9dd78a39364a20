import { createHash } from 'node:crypto';
import path from 'node:path';
import type { Failure, Io } from './io';

/** The first bytes of a file. */
export interface FileHash {
  readonly bytes: number;
  readonly sha256: string;
}

/** Gives a file's text from a byte on, piece by piece; how many bytes that were. */
export function readPieces(
  io: Io,
  file: string,
  from: number,
  each: (text: string) => void,
): number | Failure {
  const decoder = new TextDecoder('utf-8', { ignoreBOM: true });
  let bytes = 0;
  const failed = eachPiece(io, file, from, (piece) => {
    bytes += piece.length;
    each(decoder.decode(piece, { stream: true }));
  });
  if (failed) return failed;
  each(decoder.decode());
  return bytes;
}

/** Undefined where the file has fewer bytes, or cannot be read. */
export function hashOf(io: Io, file: string, bytes: number): FileHash | undefined {
  const hash = createHash('sha256');
  let left = bytes;
  const failed = eachPiece(io, file, 0, (piece) => {
    hash.update(piece.subarray(0, left));
    left -= Math.min(left, piece.length);
  });
  return failed || left > 0 ? undefined : { bytes, sha256: hash.digest('hex') };
}

function eachPiece(
  io: Io,
  file: string,
  from: number,
  each: (piece: Uint8Array) => void,
): Failure | undefined {
  const full = path.resolve(io.cwd, file);
  if (io.files.pieces) return io.files.pieces(full, from, each);
  const text = io.files.read(full);
  if (typeof text !== 'string') return text;
  each(Buffer.from(text).subarray(from));
  return undefined;
}
