import type { PlanParams } from './protocol';

/** PapersParams -> PapersAnswer | null */
export const papersRequest = 'lotwright/papers';

/**
 * (nothing) -> the solver's program, `highs.wasm`, in base64. A server that has no disk asks its client for it, once papers
 * are asked for: they are packed by it.
 */
export const solverProgramRequest = 'lotwright/solverProgram';

/** Asks for the release schedule as one reader is told of it. */
export interface PapersParams extends PlanParams {
  readonly reader: 'packhouse' | 'sales' | 'cold-store' | 'lab' | 'growers' | 'everyone';
  readonly form: 'markdown' | 'html' | 'csv' | 'workbook' | 'calendar' | 'json';
  /** Calendars issued before, by the names that the files have: what stays in them keeps its number. */
  readonly previous?: Readonly<Record<string, string>>;
}

export interface PapersAnswer {
  readonly root: string;
  readonly files: readonly {
    readonly name: string;
    /** In base64: workbooks are no text. */
    readonly content: string;
  }[];
}

/** Bytes as base64 text, in parts: a call with all bytes as arguments has too many of them. */
export function base64Of(bytes: Uint8Array): string {
  let letters = '';
  for (let at = 0; at < bytes.length; at += 8192)
    letters += String.fromCharCode(...bytes.subarray(at, at + 8192));
  return btoa(letters);
}

export function bytesOf(base64: string): Uint8Array {
  return Uint8Array.from(atob(base64), (letter) => letter.charCodeAt(0));
}
