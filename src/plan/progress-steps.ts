import type { ProgressStep } from './record-model';

/** What happens to a fill on one day each, in the order in which it mostly does: the key of `progress`, and the plan's name for it. */
export const progressSteps = [
  ['first-bin', 'firstBin'],
  ['last-bin', 'lastBin'],
  ['cool', 'cool'],
  ['sealed', 'sealed'],
  ['low-oxygen', 'lowOxygen'],
  ['set-point', 'setPoint'],
  ['opened', 'opened'],
  ['emptied', 'emptied'],
] as const satisfies readonly (readonly [key: string, step: ProgressStep])[];

export type ProgressKey = (typeof progressSteps)[number][0];
