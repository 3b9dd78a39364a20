import { evaluate } from 'mathjs';
import { describe, expect, it } from 'vitest';
import { computeSeason } from '../../src/findings/compute';
import { readPlan } from '../../src/plan/read';
import { displayUnits, explainFigure } from '../../src/report/explain';
import { figureId } from '../../src/report/named-figures';
import { thingsOf } from '../../src/report/things';
import { sampleFiles } from '../samples/sample';

/**
 * A person with a pocket calculator has the printed text and nothing else. Here each line of numbers is evaluated as
 * printed and must give the printed result below it, within what the rounding of its printed numbers can make of it.
 */
const NUMBER = /(?<![A-Za-z_\d.])\d+(?:\.\d+)?(?:e[-+]?\d+)?/g;

interface Reckoned {
  readonly expression: string;
  readonly result: number;
  /** Half a unit of the last printed digit. */
  readonly halfDigit: number;
}

/** Lines that go on in the next are put together again: those are indented by four more than where they begin. */
function statementsOf(text: string): string[] {
  const statements: string[] = [];
  let indent = 0;
  for (const line of text.split('\n')) {
    const here = line.length - line.trimStart().length;
    const goesOn = statements.length > 0 && here >= indent + 4 && !/^\s*= /.test(line);
    if (goesOn) statements.push(`${statements.pop()} ${line.trim()}`);
    else {
      statements.push(line);
      indent = here;
    }
  }
  return statements;
}

function reckonedIn(text: string): Reckoned[] {
  const statements = statementsOf(text);
  return statements.flatMap((line, at) => {
    const expression = /^\s*= (.*)$/.exec(line)?.[1] ?? '';
    const result = /^\s*= (-?\d+(?:\.\d+)?(?:e[-+]?\d+)?)/.exec(statements[at + 1] ?? '')?.[1];
    const isNumbers =
      /[-+*/(]/.test(expression) && !/[a-z_]{3,}[a-z_\d]*(?!\()\b/i.test(withoutFunctions(expression));
    if (result === undefined || !isNumbers) return [];
    return [{ expression: toMathjs(expression), result: Number(result), halfDigit: halfDigitOf(result) }];
  });
}

function withoutFunctions(text: string): string {
  return text.replace(/\b(ln|exp|max|min|floor|ceil|sqrt|abs)\(/g, '(');
}

function toMathjs(text: string): string {
  return text.replace(/\bln\(/g, 'log(');
}

function halfDigitOf(printed: string): number {
  const [mantissa = '', exponent = '0'] = printed.split('e');
  const decimals = mantissa.split('.')[1]?.length ?? 0;
  // A whole number of six digits or more was rounded to six.
  const whole = decimals === 0 ? Math.max(0, mantissa.replace('-', '').length - 6) : -decimals;
  return 0.5 * 10 ** (whole + Number(exponent));
}

/** The result as printed, and how far the rounding of each number can move it. */
function evaluated(expression: string): { readonly value: number; readonly moved: number } {
  const value = Number(evaluate(expression));
  let moved = 0;
  for (const match of expression.matchAll(NUMBER)) {
    const at = match.index;
    const other = Number(match[0]) + halfDigitOf(match[0]);
    const text = expression.slice(0, at) + other.toPrecision(15) + expression.slice(at + match[0].length);
    const change = Math.abs(Number(evaluate(text)) - value);
    if (Number.isFinite(change)) moved += change;
  }
  return { value, moved };
}

describe('what explain prints', () => {
  for (const [sample, things] of [
    ['first-season', ['R2', 'R4', 'S1', 'lime-box', 'N1', 'engine-room', 'G4']],
    ['us-units', undefined],
  ] as const) {
    it(`can be reckoned again from the text alone, ${sample}`, () => {
      const plan = readPlan(sampleFiles(sample));
      const season = computeSeason(plan, { release: 'none', courses: true });
      const wanted = new Set<string>(things ?? [...plan.rooms.keys()].slice(0, 2));
      const seen = new Set<string>();
      for (const thing of thingsOf(season).filter(({ kind, id }) => kind !== 'fill' && wanted.has(id))) {
        for (const named of thing.figures.filter(({ minor }) => !minor)) {
          const text = explainFigure(named.figure, plan, displayUnits(plan, 'metric').system);
          for (const { expression, result, halfDigit } of reckonedIn(text)) {
            if (seen.has(`${expression} = ${result}`)) continue;
            seen.add(`${expression} = ${result}`);
            const { value, moved } = evaluated(expression);
            const off = Math.abs(value - result);
            expect(off, `${figureId(named)}: ${expression} = ${result}`).toBeLessThanOrEqual(
              1.01 * (moved + halfDigit) + 1e-12,
            );
          }
        }
      }
      expect(seen.size).toBeGreaterThan(400);
    });
  }
});
