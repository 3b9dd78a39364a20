import { describe, expect, it } from 'vitest';
import { htmlText } from '../../../src/report/papers/html';
import { papersFor } from '../../../src/report/papers/papers';
import { accountOf } from './seasons';

describe('papers of a plan of which not all could be read', () => {
  it('say so above all tables, after the caution on entering, for every reader', () => {
    const account = accountOf('first-season', {}, [['sealed: 2026-09-18', 'sealed 2026-09-18']]);
    for (const reader of ['packhouse', 'sales', 'cold-store', 'lab', 'everyone', 'growers'] as const)
      for (const paper of papersFor(account, reader)) {
        expect(paper.cautions.at(-1)).toMatch(
          /^Not all of the plan could be read: there is an error in its text at fruit\.lotplan\.yaml:75:.* What stands there is left out/,
        );
        expect(htmlText(paper, 'a4')).toContain('Not all of the plan could be read');
      }
  });

  it('say nothing of it where all was read', () => {
    const [paper] = papersFor(accountOf('first-season', {}, []), 'cold-store');
    expect(paper?.cautions.join()).not.toContain('could be read');
  });
});
