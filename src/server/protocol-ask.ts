import type { ReleaseProblem, ReleaseResult } from '../release/types';
import type { PlanParams } from './protocol';

/** AskParams -> AskAnswer | null, where there is no plan */
export const askRequest = 'lotwright/ask';

/** A question of an assistant, by its name and input as `src/report/assistant/questions.ts` has them. */
export interface AskParams extends PlanParams {
  readonly name: string;
  readonly input: unknown;
  /** The page of the finding that is asked for, where it is one: the client has the pages. */
  readonly page?: string;
  /** The schedule found for the problem that was handed out for this question. */
  readonly solved?: ReleaseResult;
}

export type AskAnswer =
  | {
      readonly text: string;
      readonly failed: boolean;
      /** What must be told with the text, where the text does not say it. */
      readonly caution?: string;
    }
  /** To be solved by the client, which then asks again with the result. */
  | { readonly problem: ReleaseProblem };
