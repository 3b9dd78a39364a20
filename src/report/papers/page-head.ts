import { formatDay } from '../../plan/dates';
import { shortened } from '../../plan/shortened';
import type { Paper } from './paper';
import { xmlText } from './xml';

/** What every page begins with: its title, whose season it is, and the cautions in full. */
export function pageHead({ account, cautions }: Paper, title: string): string {
  const issued = account.issued === undefined ? '' : `, issued ${formatDay(account.issued)}`;
  return [
    `<header><h1>${xmlText(title)}</h1><p>${xmlText(shortened(account.title))}${issued}</p></header>`,
    ...cautions.map((caution) => `<p class="caution">${xmlText(caution)}</p>`),
  ].join('\n');
}
