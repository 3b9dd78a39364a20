/** ExpectationsParams -> ExpectationsAnswer | null */
export const expectationsRequest = 'lotwright/expectations';

/** Asks for the promises of a plan: which there are, or what came of them too. */
export interface ExpectationsParams {
  /** The plan folder's address. */
  readonly root: string;
  readonly judge: boolean;
}

/** Zero-based lines, UTF-16 code units. */
interface Place {
  readonly line: number;
  readonly character: number;
}

export interface ToldExpectation {
  readonly id: string;
  readonly claim: string;
  /** The address of its file, and where its name stands. */
  readonly uri: string;
  readonly start: Place;
  readonly end: Place;
  /** What came of it; absent where that was not asked. */
  readonly verdict?: {
    readonly state: 'kept' | 'broken' | 'not judged';
    /** What was promised, what came out, why, and what would cure it; with the caution where a week is told. */
    readonly message: string;
    readonly promised?: string;
    readonly measured?: string;
    /** Where the message belongs, in the same file. */
    readonly at: Place;
  };
}

export interface ExpectationsAnswer {
  /** The plan folder's address. */
  readonly root: string;
  /** The plan's name for people. */
  readonly name: string;
  readonly expectations: readonly ToldExpectation[];
}
