import type { CardFinding, CardTable } from '../../src/report/card-types';
import type { TextTarget } from '../../src/report/timeline-types';
import { element, unbroken } from './dom';
import { severityMark } from './marks';
import { filled, say } from './words';

/** What the cards share: tables whose lines lead to the text, and findings. */

export type Reveal = (target: TextTarget) => void;

/** A table; the first cell of a line that has a place leads there. */
export function cardTable({ title, columns, lines, none }: CardTable, reveal: Reveal): HTMLElement {
  const heading = element('h3', {}, title);
  if (lines.length === 0)
    return element('section', { class: 'card-part' }, heading, element('p', { class: 'none' }, none));
  const rows = lines.map(({ cells, target }) => {
    const [first = '', ...others] = cells;
    return element(
      'tr',
      {},
      element('th', { scope: 'row' }, target ? textLink(first, target, reveal) : first),
      ...others.map((text) =>
        element('td', { class: isNumber(text) ? 'number' : undefined }, ...unbroken(text)),
      ),
    );
  });
  const heads = columns.map((label, at) =>
    element(
      'th',
      { scope: 'col', class: lines.some(({ cells }) => isNumber(cells[at] ?? '')) ? 'number' : undefined },
      label,
    ),
  );
  return element(
    'section',
    { class: 'card-part' },
    heading,
    element(
      'div',
      { class: 'table', role: 'region', 'aria-label': title, tabindex: 0 },
      element('table', {}, element('thead', {}, element('tr', {}, ...heads)), element('tbody', {}, ...rows)),
    ),
  );
}

function textLink(text: string, target: TextTarget, reveal: Reveal): HTMLElement {
  const button = element(
    'button',
    { class: 'link', type: 'button', 'aria-label': filled(say.showInText, text) },
    text,
  );
  button.addEventListener('click', () => reveal(target));
  return button;
}

function isNumber(text: string): boolean {
  return /^▲? ?-?\d[\d.,]*( %| t| lb| \p{L}+)?$/u.test(text);
}

/** The word for a severity: its mark and colour are never the only sign. */
function severityWord(severity: CardFinding['severity']): string {
  return { error: say.error, warning: say.warning, notice: say.notice }[severity];
}

/** Findings, each with its severity as mark and word; a click leads to its place. */
export function findingList(findings: readonly CardFinding[], more: number, reveal: Reveal): HTMLElement {
  const items = findings.map(({ severity, code, message, target }) => {
    const button = element('button', { class: 'link finding', type: 'button' }, ...unbroken(message));
    button.addEventListener('click', () => reveal(target));
    return element(
      'li',
      {},
      element('span', { class: 'severity-word' }, severityMark(severity), severityWord(severity)),
      button,
      element('span', { class: 'code' }, code),
    );
  });
  return element(
    'section',
    { class: 'card-part' },
    element('h3', {}, say.findings),
    items.length === 0
      ? element('p', { class: 'none' }, say.noFindings)
      : element('ul', { class: 'findings' }, ...items),
    ...(more > 0 ? [element('p', { class: 'none' }, filled(say.moreFindings, more))] : []),
  );
}
