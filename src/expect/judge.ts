import type { Claim, Expectation } from '../plan/expect-model';
import { counted, listed } from '../plan/wording';
import { type Context, contextOf, notJudged } from './context';
import { judgeLoad } from './loads';
import { judgeValue } from './money';
import { judgeOpens, judgeWindow } from './openings';
import { judgeShortage } from './orders';
import { judgePackhouse } from './packhouse';
import { judgeGrower, judgeInStore } from './store';
import type { JudgedSeason, Outcome, Verdict } from './types';
import { claimWords } from './words';

/** A finding as far as promises speak of findings. */
export interface FoundCode {
  readonly code: string;
  readonly message: string;
}

export interface JudgeOptions {
  /** Cures are worked out by valuing the schedule anew, which takes a while. */
  readonly thorough?: boolean;
  /** Promises that speak of findings are judged where these are given: those that stand, allowed ones left out. */
  readonly findings?: readonly FoundCode[] | undefined;
  readonly isCode?: (code: string) => boolean;
}

/** Every promise of the plan with what came of it, in the order of the plan. Never throws. */
export function judgeAll(season: JudgedSeason, options: JudgeOptions = {}): Outcome[] {
  const context = contextOf(season, options.thorough ?? false);
  return [...season.plan.expectations.values()].map((one) => outcomeOf(context, one, options));
}

function outcomeOf(context: Context, expectation: Expectation, options: JudgeOptions): Outcome {
  const [claim, ...others] = expectation.claims;
  if (!claim || others.length > 0) {
    const kinds = expectation.claims.map(({ kind }) => `\`${kind}\``);
    return {
      expectation,
      claim: kinds.length === 0 ? 'nothing yet' : listed(kinds, 12),
      opening: false,
      verdict: notJudged(
        others[0]?.at ?? expectation.at,
        claim
          ? `It promises ${counted(kinds.length, 'thing')} at once: ${listed(kinds, 12)}. Give each an expectation of its own.`
          : 'It promises nothing that can be read. Write what it promises, for example `no-shortage: { variety: Gala }`.',
      ),
    };
  }
  return {
    expectation,
    claim: claimWords(claim, context.show),
    opening: tellsOpening(claim),
    verdict: verdictOf(context, claim, options),
  };
}

/** Cures of a shortage and of what is in store are weeks of opening too. */
function tellsOpening({ kind }: Claim): boolean {
  return ['opens', 'window', 'in-store', 'grower-out', 'no-shortage', 'shortage'].includes(kind);
}

function verdictOf(context: Context, claim: Claim, options: JudgeOptions): Verdict {
  switch (claim.kind) {
    case 'no-shortage':
    case 'shortage':
      return judgeShortage(context, claim);
    case 'opens':
      return judgeOpens(context, claim);
    case 'window':
      return judgeWindow(context, claim);
    case 'packhouse-use':
      return judgePackhouse(context, claim);
    case 'in-store':
      return judgeInStore(context, claim);
    case 'grower-out':
      return judgeGrower(context, claim);
    case 'value':
      return judgeValue(context, claim);
    case 'no-finding':
      return judgeFinding(claim, options);
    default:
      return judgeLoad(context, claim);
  }
}

function judgeFinding(
  { code, at }: Extract<Claim, { kind: 'no-finding' }>,
  { findings, isCode = () => true }: JudgeOptions,
): Verdict {
  if (!code) return notJudged(at, 'It does not say which finding.');
  if (!isCode(code.value))
    return notJudged(
      code.at,
      `No rule has the code \`${code.value}\`. \`lotwright explain findings\` lists the codes.`,
    );
  if (!findings) return notJudged(at, 'The findings of the plan are not at hand here.');
  const found = findings.filter((one) => one.code === code.value);
  const figure = (value: number) =>
    ({
      kind: 'figure',
      figure: {
        name: 'findings',
        unit: '1',
        value,
        origin: { kind: 'counted', what: 'findings that stand', places: [] },
      },
    }) as const;
  const told = { promised: figure(0), measured: figure(found.length), at: code.at };
  const [first] = found;
  if (!first) return { state: 'kept', ...told, why: `The plan has no finding \`${code.value}\`.`, cures: [] };
  return {
    state: 'broken',
    ...told,
    why: `The plan has ${found.length === 1 ? 'one' : found.length}. ${found.length === 1 ? '' : 'The first: '}${first.message}`,
    cures: [],
  };
}
