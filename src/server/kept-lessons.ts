import type { ComputedSeason } from '../findings/types';
import { hasRecordsToLearnFrom } from '../learning/has-records';
import type { GasFits } from '../learning/learn';
import type { Learned } from '../learning/lesson';
import type { Plan } from '../plan/model';
import type { RoomReadings } from '../readings/types';
import { inSlices } from './in-slices';
import type { KeptReadings } from './kept-readings';
import type { OpenPlan } from './plan-sessions';

/** What the records of a plan teach. */
export interface KnownLessons {
  readonly plan: Plan;
  readonly readings: ReadonlyMap<string, RoomReadings>;
  readonly learned: Learned;
}

const NOTHING: Learned = { lessons: [], not: [] };

/** Lessons by plan folder, learned in slices when they are asked for, and again when plan or readings have changed. */
export class KeptLessons {
  private fits: GasFits | undefined;
  private readonly known = new Map<string, KnownLessons>();
  private readonly running = new Map<
    string,
    { readonly plan: Plan; readonly result: ReturnType<KeptLessons['of']> }
  >();

  constructor(private readonly readings: KeptReadings) {}

  /** Those of the plan as it is, where they are known; nothing is computed for it. */
  atHand(open: OpenPlan): KnownLessons | undefined {
    const known = this.known.get(open.root);
    return known && known.plan === open.session.plan() ? known : undefined;
  }

  /** Those of the plan as it is, once they are known; undefined where it has been changed meanwhile. */
  of(open: OpenPlan): Promise<KnownLessons | undefined> {
    const plan = open.session.plan();
    const running = this.running.get(open.root);
    if (running?.plan === plan) return running.result;
    const result = this.learn(open).finally(() => {
      if (this.running.get(open.root)?.result === result) this.running.delete(open.root);
    });
    this.running.set(open.root, { plan, result });
    return result;
  }

  private async learn(open: OpenPlan): Promise<KnownLessons | undefined> {
    const { plan, season } = await open.session.soon();
    const readings = await this.readings.of(open);
    const known = this.known.get(open.root);
    if (known?.plan === plan && known.readings === readings) return known;
    const learned = hasRecordsToLearnFrom(plan)
      ? await inSlices(await this.steps(season, readings), () => open.session.plan() !== plan)
      : NOTHING;
    if (!learned || open.session.plan() !== plan) return undefined;
    const made = { plan, readings, learned };
    this.known.set(open.root, made);
    return made;
  }

  /** What learns is read when there is something to learn from. */
  private async steps({ plan, filled }: ComputedSeason, readings: ReadonlyMap<string, RoomReadings>) {
    const { GasFits, learnAllSteps } = await import('../learning/learn');
    this.fits ??= new GasFits();
    return learnAllSteps(plan, filled, readings, this.fits);
  }
}
