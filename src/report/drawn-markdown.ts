import { formatWeek } from '../plan/dates';
import type { DisplayUnits } from '../plan/display';
import { caution } from '../room/caution';
import { acrossJson } from './across-json';
import { acrossLines } from './across-text';
import { noPaint } from './paint';
import type { ReleaseReport } from './schemas';
import type { DrawnSeasons } from './timeline-drawn';
import { uncertaintyJson } from './uncertainty-json';
import { type DrawnPart, uncertaintyLines } from './uncertainty-text';

/** What seasons drawn came to, as the release report has it. */
export function drawnJson(seasons: DrawnSeasons): {
  readonly uncertainty: NonNullable<ReleaseReport['uncertainty']>;
  readonly goodAcross?: NonNullable<ReleaseReport['goodAcross']>;
} {
  const { problem, drawn, ranges } = seasons;
  const goodAcross = acrossJson(problem, seasons);
  return { uncertainty: uncertaintyJson(problem, drawn, ranges), ...(goodAcross && { goodAcross }) };
}

/** The same as a page of the editor: what `release --draws` prints. */
export function drawnMarkdown(seasons: DrawnSeasons, { currency }: DisplayUnits): string {
  const { firstWeek, weeks } = seasons.problem;
  const part: DrawnPart = {
    ...drawnJson(seasons),
    currency,
    weeks: Array.from({ length: weeks }, (_, week) => ({ week: formatWeek(firstWeek + week) })),
  };
  const lines = [...acrossLines(part, noPaint), ...uncertaintyLines(part, noPaint)];
  return ['# Seasons drawn', ['```text', ...trimmed(lines), '```'].join('\n'), `> ${caution}`, ''].join(
    '\n\n',
  );
}

/** A name of the plan could end the block of text that it stands in. */
function trimmed(lines: readonly string[]): string[] {
  const first = lines.findIndex((line) => line !== '');
  return lines.slice(Math.max(0, first)).map((line) => line.replaceAll('```', "'''"));
}
