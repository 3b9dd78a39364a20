import type { Plan, PlanText } from '../../src/plan/model';

/** A plan of which only the texts matter. */
export function planOf(texts: Readonly<Record<string, string>>): Plan {
  const files = new Map(Object.entries(texts).map(([path, text]) => [path, textOf(path, text)]));
  return { files, problems: [], season: undefined } as unknown as Plan;
}

export function textOf(path: string, text: string): PlanText {
  const lineStarts = [0];
  for (let at = 0; at < text.length; at += 1) if (text[at] === '\n') lineStarts.push(at + 1);
  return { path, text, lineStarts };
}
