/** The steps of a fill that come one after another, by the names the plan's records give them. */
export interface RecordedSteps<Recorded> {
  readonly firstBin?: Recorded | undefined;
  readonly lastBin?: Recorded | undefined;
  readonly cool?: Recorded | undefined;
  readonly sealed?: Recorded | undefined;
  readonly lowOxygen?: Recorded | undefined;
  readonly setPoint?: Recorded | undefined;
  readonly opened?: Recorded | undefined;
  readonly emptied?: Recorded | undefined;
}

export interface RecordedStep<Recorded> {
  /** In words: `at 5 % oxygen`. */
  readonly name: string;
  readonly on: Recorded;
}

/**
 * Pairs of recorded steps of which the second cannot come before the first; only of those that are recorded. What the
 * plan's own days are held to is told elsewhere.
 */
export function stepsInOrder<Recorded>(
  of: RecordedSteps<Recorded>,
): (readonly [first: RecordedStep<Recorded>, later: RecordedStep<Recorded>])[] {
  const step = (name: string, on: Recorded | undefined) => ({ name, on });
  const firstBin = step('first bin', of.firstBin);
  const lastBin = step('last bin', of.lastBin);
  const sealed = step('sealed', of.sealed);
  const lowOxygen = step('at 5 % oxygen', of.lowOxygen);
  const opened = step('opened', of.opened);
  const closed = of.sealed === undefined ? lastBin : sealed;
  const pairs = [
    [firstBin, step('cool', of.cool)],
    [sealed, lowOxygen],
    [of.lowOxygen === undefined ? sealed : lowOxygen, step('at its set-point', of.setPoint)],
    [closed, opened],
    [of.opened === undefined ? closed : opened, step('emptied', of.emptied)],
  ] as const;
  return pairs.flatMap(([first, later]) =>
    first.on === undefined || later.on === undefined
      ? []
      : [
          [
            { name: first.name, on: first.on },
            { name: later.name, on: later.on },
          ] as const,
        ],
  );
}
