import type { SeverityChoice } from '../findings/find';
import { hasRule } from '../findings/rules';

const CHOICES: ReadonlySet<unknown> = new Set(['error', 'warning', 'notice', 'off']);

/** Letters of a value that the log repeats. */
const LONGEST = 80;

/** Reads the editor's `lotwright` settings; whatever is not as it should be is left out. */
export function severitiesIn(settings: unknown): Map<string, SeverityChoice> {
  const findings = isObject(settings) ? settings.findings : undefined;
  if (!isObject(findings)) return new Map();
  return new Map(
    Object.entries(findings).filter((entry): entry is [string, SeverityChoice] => CHOICES.has(entry[1])),
  );
}

/** What is wrong with the `lotwright` settings, a sentence each; what none or null is says nothing. */
export function* wrongIn(settings: unknown): Iterable<string> {
  if (settings === undefined || settings === null) return;
  if (!isObject(settings)) return yield `Setting lotwright must be an object, not ${written(settings)}.`;
  const { findings } = settings;
  if (findings === undefined || findings === null) return;
  if (!isObject(findings))
    return yield `Setting lotwright.findings must be an object of codes and severities, not ${written(findings)}.`;
  for (const [code, choice] of Object.entries(findings)) {
    if (!hasRule(code)) yield `Setting lotwright.findings: no finding has the code ${written(code)}.`;
    if (!CHOICES.has(choice))
      yield `Setting lotwright.findings.${code} must be one of ${[...CHOICES].join(', ')}, not ${written(choice)}.`;
  }
}

/** The section `lotwright` of what a client says when its settings have changed; undefined where it says nothing of it. */
export function sectionIn(params: unknown): unknown {
  const settings = isObject(params) ? params.settings : undefined;
  return isObject(settings) ? settings.lotwright : undefined;
}

/** A value as the log tells it; one may be of any length. */
function written(value: unknown): string {
  const text = JSON.stringify(value) ?? String(value);
  return text.length > LONGEST ? `${text.slice(0, LONGEST)}...` : text;
}

function isObject(value: unknown): value is Record<string, unknown> {
  return typeof value === 'object' && value !== null && !Array.isArray(value);
}
