import { afterEach, describe, expect, it } from 'vitest';
import {
  type TablesAnswer,
  type TakeInAnswer,
  type TakeInParams,
  tablesRequest,
  takeInRequest,
} from '../../src/server/protocol-take-in';
import { inMemory, lotwright } from '../cli/in-process';
import { ROOT, TestClient } from './client';
import { samplePlan } from './plans';

const uri = `${ROOT}/late.lotplan.yaml`;
const LATE = `lotwright: 1
lots:
  L1: { variety: Gala, picked: 2026-09-03, bins: 40 } # the late block
  L2: { variety: Gala, picked: 2026-09-04, bins: 20 }
tables:
  scale: { holds: receipts, columns: { lot: Lot, day: Day, bins: Bins } }
  later: { columns: { lot: Lot } }
`;
const ROWS = 'Lot,Day,Bins\nL1,2026-09-03,20\nL2,2026-09-04,12\nL1,2026-09-04,9\nNobody,2026-09-03,5\n';

describe('taking a file into the plan over the protocol', () => {
  let client: TestClient | undefined;
  afterEach(() => client?.stop());

  const files = [...samplePlan('first-season'), { path: 'late.lotplan.yaml', text: LATE }];

  async function start(): Promise<TestClient> {
    const started = new TestClient(new Map(files.map(({ path, text }) => [`${ROOT}/${path}`, text])));
    client = started;
    await started.start();
    return started;
  }
  const ask = (of: TestClient, params: Partial<TakeInParams> = {}) =>
    of.connection.sendRequest<TakeInAnswer | null>(takeInRequest, {
      uri,
      table: 'scale',
      source: 'monday.csv',
      text: ROWS,
      ...params,
    });

  it('lists the tables of the plan with what they hold', async () => {
    const answer = await (await start()).connection.sendRequest<TablesAnswer | null>(tablesRequest, { uri });
    expect(answer?.tables).toEqual([{ id: 'scale', holds: 'receipts' }, { id: 'later' }]);
  });

  it('gives the edits that the command line writes, and a page of them and of what is not taken', async () => {
    const answer = await ask(await start());
    expect(answer).toMatchObject({ rows: 4, faults: 1 });
    expect(answer?.page.markdown).toContain('- monday.csv:5 ');
    expect(answer?.page.markdown).toContain('| lot L1 | ');
    const written = new Map<string, string>();
    const all = Object.fromEntries(files.map(({ path, text }) => [`/plan/${path}`, text]));
    const given = inMemory({ ...all, '/monday.csv': ROWS });
    await lotwright(['take-in', 'scale', '/monday.csv', '/plan', '--write'], {
      files: {
        ...given,
        writeAll: (texts) => {
          for (const [path, text] of texts) written.set(path, text);
          return undefined;
        },
      },
      cwd: '/',
    });
    expect(edited(LATE, answer?.edits[uri] ?? [])).toBe(written.get('/plan/late.lotplan.yaml'));
    expect(Object.keys(answer?.edits ?? {})).toEqual([uri]);
  });

  it('changes nothing the second time, and says so', async () => {
    const of = await start();
    const first = await ask(of);
    of.open(uri, LATE);
    of.change(uri, edited(LATE, first?.edits[uri] ?? []));
    const again = await ask(of);
    expect(again).toMatchObject({ changes: 0, edits: {}, faults: 1 });
    expect(again?.page.markdown).toContain('There is nothing to change.');
  });

  it('has nothing for a table that the plan has not, or that does not say what it holds', async () => {
    const of = await start();
    expect(await ask(of, { table: 'none' })).toBeNull();
    expect(await ask(of, { table: 'later' })).toBeNull();
  });
});

/** The text with the edits made, the last first. */
function edited(text: string, edits: TakeInAnswer['edits'][string]): string {
  const starts = [0, ...[...text.matchAll(/\n/g)].map(({ index }) => index + 1)];
  const at = ({ line, character }: { readonly line: number; readonly character: number }) =>
    (starts[line] ?? text.length) + character;
  return edits
    .map((edit, index) => ({ ...edit, index }))
    .sort((a, b) => at(b.range.start) - at(a.range.start) || b.index - a.index)
    .reduce(
      (all, { range, newText }) => all.slice(0, at(range.start)) + newText + all.slice(at(range.end)),
      text,
    );
}
