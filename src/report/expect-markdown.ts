import type { ExpectationRow } from './expect-report';
import { headline, toldText } from './expect-text';
import { inMarkdown } from './in-markdown';
import type { ExpectReport } from './schemas';

/** The promises as Markdown, for a comment or a page: broken ones in full, the others in a table that folds away. */
export function expectMarkdown(report: ExpectReport): string {
  const { expectations: rows } = report;
  if (rows.length === 0) return 'The plan promises nothing.\n';
  const others = rows.filter(({ state }) => state !== 'broken');
  return [
    `**${inMarkdown(headline(report))}**`,
    '',
    ...(report.caution === undefined ? [] : [`> ${inMarkdown(report.caution)}`, '']),
    ...rows.filter(({ state }) => state === 'broken').flatMap(brokenPart),
    ...(others.length === 0 ? [] : foldedTable(others)),
  ]
    .join('\n')
    .trimEnd()
    .concat('\n');
}

function brokenPart(row: ExpectationRow): string[] {
  const { id, place, claim, because, why, cures } = row;
  return [
    `**Broken: ${inMarkdown(id)}** (${inMarkdown(`${place.file}:${place.line}`)})`,
    '',
    `- ${inMarkdown(claim)}: promised ${inMarkdown(toldText(row.promised))}, came out ${inMarkdown(toldText(row.measured))}`,
    ...(because === undefined ? [] : [`- because: ${inMarkdown(because)}`]),
    `- ${inMarkdown(why)}`,
    ...cures.map(({ text }) => `- cure: ${inMarkdown(text)}`),
    '',
  ];
}

function foldedTable(rows: readonly ExpectationRow[]): string[] {
  const unjudged = rows.filter(({ state }) => state === 'not judged');
  const kept = rows.length - unjudged.length;
  const summary = [
    ...(kept > 0 ? [`${kept} kept`] : []),
    ...(unjudged.length > 0 ? [`${unjudged.length} not judged`] : []),
  ].join(', ');
  return [
    `<details${unjudged.length > 0 ? ' open' : ''}><summary>${summary}</summary>`,
    '',
    '| | Promise | Promised | Came out |',
    '| --- | --- | --: | --: |',
    ...rows.map(
      (row) =>
        `| ${[row.id, claimCell(row), toldText(row.promised), toldText(row.measured)].map(inMarkdown).join(' | ')} |`,
    ),
    '',
    '</details>',
  ];
}

function claimCell({ state, claim, why }: ExpectationRow): string {
  return state === 'not judged' ? `${claim} (not judged: ${why})` : claim;
}
