import type { Problem } from './problem';

/**
 * Takes problems as they are found, and words only as many as anybody will read: wording is the dear part, and a file
 * of another kind can have a million of them.
 */
export class ProblemSink {
  readonly problems: Problem[] = [];
  private found = 0;

  constructor(private readonly most: number) {}

  add(word: () => Problem | undefined): void {
    this.found++;
    if (this.problems.length >= this.most) return;
    const problem = word();
    if (problem) this.problems.push(problem);
  }

  /** How many were found beyond those that were put into words. */
  get unsaid(): number {
    return Math.max(0, this.found - this.most);
  }
}

/** The most problems that are told of one file. */
export const MOST_PROBLEMS = 200;
