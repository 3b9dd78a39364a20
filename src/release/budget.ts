/** What is left of the solver's seconds; of counted work (`work.ts`), no clock's. */
export class Budget {
  /** Enough to say something: a limit of 0 would mean none to some. */
  private static readonly LEAST = 0.05;
  private readonly counted = new Map<object, number>();
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

  /** Takes off what something that counts its own seconds has used since it was last asked. True where none is left. */
  spendOn(one: { readonly seconds: number }): boolean {
    this.spend(one.seconds - (this.counted.get(one) ?? 0));
    this.counted.set(one, one.seconds);
    return this.spent;
  }
}
