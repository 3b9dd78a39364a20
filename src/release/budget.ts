/** What is left of the solver's seconds. */
export class Budget {
  /** Enough to say something: a limit of 0 would mean none to some. */
  private static readonly LEAST = 0.05;
  constructor(private seconds: number) {}
  get spent(): boolean {
    return this.seconds <= 0;
  }

  get left(): number {
    return Math.max(Budget.LEAST, this.seconds);
  }
  spend(seconds: number): void {
    this.seconds -= seconds;
  }
}
