import type { Problem } from '../problem';

/** A change of a chunk's text. */
export interface Change {
  readonly start: number;
  readonly end: number;
  readonly newText: string;
}

/** What may be wrong in a line, and the repairs that would show that it is. Places are the chunk's. */
export interface Slip {
  readonly message: string;
  readonly start: number;
  readonly end: number;
  /** Of these exactly one must make the chunk readable. */
  readonly repairs: readonly (readonly Change[])[];
  /** What the fix is called; none is offered without, where what to do is for the planner to choose. */
  readonly title?: string;
  /** Whether it is told even where what is read then is not what the plan language has. */
  readonly isCertain?: boolean;
  /** Whether its repairs change how other lines of the entry are read: a mistake on any of them counts against one. */
  readonly isOfWhole?: boolean;
  /** Whether anything that is wrong in the mended line counts against a repair. */
  readonly isStrict?: boolean;
  /** What may be meant as well. Where the chunk can be read with that too, it is said and no fix is offered. */
  readonly instead?: { readonly repair: readonly Change[]; readonly hint: string };
  /** Whether it is told where a key that is read then is misspelt, too. */
  readonly isOfKey?: boolean;
}

export function insert(at: number, newText: string): Change {
  return { start: at, end: at, newText };
}

export function cut(start: number, end: number): Change {
  return { start, end, newText: '' };
}

export function applied(text: string, changes: readonly Change[]): string {
  const later = [...changes].sort((a, b) => b.start - a.start);
  return later.reduce((all, { start, end, newText }) => all.slice(0, start) + newText + all.slice(end), text);
}

/** Slips of one kind, told once at the first, with a repair that mends them all; none where there is one alone. */
export function together(slips: readonly Slip[]): Slip[] {
  const [first] = slips;
  if (!first || slips.length < 2) return [];
  const repair = slips.flatMap(({ repairs }) => repairs[0] ?? []);
  const message = `${first.message} So it is at ${slips.length} places in this entry.`;
  return [
    { ...first, message, repairs: [repair], title: `${first.title ?? ''} at all ${slips.length} places` },
  ];
}

/** The problem that a slip is, with the repair that is right as its fix. */
export function slipProblem(text: string, slip: Slip, repair: readonly Change[] | undefined): Problem {
  const { message, start, end, title } = slip;
  const edits = (repair ?? []).map((change) => ({
    at: { file: '', start: change.start, end: change.end },
    newText: change.newText,
  }));
  return {
    code: 'yaml-syntax',
    message,
    at: { file: '', start, end },
    about: `slip/${text.slice(start, end).trim().slice(0, 40)}`,
    ...(title && edits.length > 0 ? { fixes: [{ title, edits }] } : {}),
  };
}
