import type { SeverityChoice } from '../findings/find';

const CHOICES: ReadonlySet<unknown> = new Set(['error', 'warning', 'notice', 'off']);

/** Reads the editor's `lotwright` settings; whatever is not as it should be is left out. */
export function severitiesIn(settings: unknown): Map<string, SeverityChoice> {
  const findings = isObject(settings) ? settings.findings : undefined;
  if (!isObject(findings)) return new Map();
  return new Map(
    Object.entries(findings).filter((entry): entry is [string, SeverityChoice] => CHOICES.has(entry[1])),
  );
}

function isObject(value: unknown): value is Record<string, unknown> {
  return typeof value === 'object' && value !== null && !Array.isArray(value);
}
