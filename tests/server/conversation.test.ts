import fc from 'fast-check';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { ErrorCodes, ResponseError } from 'vscode-languageserver/node';
import { hasParams, wrongParams } from '../../src/server/params';
import { requests } from '../../src/server/protocol';
import { askRequest } from '../../src/server/protocol-ask';
import { expectationsRequest } from '../../src/server/protocol-expect';
import { learnRequest, roomLessonsRequest, takeLessonsRequest } from '../../src/server/protocol-learn';
import { papersRequest } from '../../src/server/protocol-papers';
import { tablesRequest, takeInRequest } from '../../src/server/protocol-take-in';
import { REQUESTS } from '../edits/requests';
import { ROOT, TestClient } from './client';
import { samplePlan } from './plans';

const URI = `${ROOT}/plan.lotplan.yaml`;
const PLAN = samplePlan('first-season')[0]?.text ?? '';
const { findFiles, readFiles, ...asked } = requests;
const METHODS = [
  ...Object.keys(REQUESTS),
  ...Object.values(asked),
  askRequest,
  expectationsRequest,
  learnRequest,
  roomLessonsRequest,
  takeLessonsRequest,
  papersRequest,
  tablesRequest,
  takeInRequest,
];

/** The error that a request is answered with. */
async function refusal(client: TestClient, method: string, params: unknown) {
  const error = await client.request(method, params).then(
    (answer) => ({ code: 0, message: JSON.stringify(answer) }),
    (reason: unknown) => reason,
  );
  if (error instanceof ResponseError) return { code: error.code, message: error.message };
  return error;
}

describe('the order of a conversation', () => {
  it.each([...METHODS, 'shutdown'])('%s before initialize is refused', async (method) => {
    const client = new TestClient(new Map());
    expect(await refusal(client, method, {})).toEqual({
      code: ErrorCodes.ServerNotInitialized,
      message: `${method} before initialize: the first request must be initialize.`,
    });
    client.connection.dispose();
  });

  it('begins once, and nothing is answered after its end', async () => {
    const client = new TestClient(new Map([[URI, PLAN]]));
    await client.start();
    expect(await refusal(client, 'initialize', {})).toMatchObject({ code: ErrorCodes.InvalidRequest });
    await client.request('shutdown', undefined);
    for (const method of [...METHODS, 'shutdown', 'initialize'])
      expect(await refusal(client, method, {})).toEqual({
        code: ErrorCodes.InvalidRequest,
        message: `${method} after shutdown: only exit can follow.`,
      });
    client.connection.dispose();
  });

  it('begins whatever the first request says of the client', async () => {
    await fc.assert(
      fc.asyncProperty(anything, async (params) => {
        const client = new TestClient(new Map());
        expect(await client.request('initialize', params)).toMatchObject({
          serverInfo: { name: 'Lotwright' },
        });
        await client.stop();
      }),
      { numRuns: 40 },
    );
  });
});

/** Parameters by name, most of them with names that some request has. */
const anything: fc.Arbitrary<object> = fc.dictionary(
  fc.constantFrom(
    ...['textDocument', 'position', 'range', 'context', 'positions', 'uri', 'root', 'newName', 'query'],
    ...[
      'fill',
      'week',
      'name',
      'input',
      'capabilities',
      'workspaceFolders',
      'initializationOptions',
      'files',
    ],
  ),
  fc.oneof(
    fc.jsonValue({ maxDepth: 2 }) as fc.Arbitrary<unknown>,
    fc.constantFrom(URI, ROOT, { uri: URI }, { line: 3, character: 2 }),
  ),
);

describe('parameters', () => {
  const client = new TestClient(new Map([[URI, PLAN]]));

  beforeAll(async () => {
    await client.start();
    client.open(URI, PLAN);
    await client.settled();
  });
  afterAll(() => client.stop());

  it('are known of every request', () => {
    expect(METHODS.filter((method) => !hasParams(method))).toEqual([]);
    expect([findFiles, readFiles].some(hasParams)).toBe(false);
  });

  it.each([
    ['textDocument/hover', {}, 'params.textDocument is missing: expected an object with uri'],
    [
      'textDocument/hover',
      { textDocument: { uri: URI } },
      'params.position is missing: expected an object with line, character',
    ],
    [
      'textDocument/completion',
      { textDocument: {}, position: { line: 0, character: 0 } },
      'params.textDocument.uri is missing: expected a text',
    ],
    [
      'textDocument/definition',
      { textDocument: { uri: URI }, position: { line: '1', character: 0 } },
      'params.position.line must be a whole number',
    ],
    [
      'textDocument/rename',
      { textDocument: { uri: URI }, position: { line: 1, character: 0 } },
      'params.newName is missing: expected a text',
    ],
    [
      'textDocument/selectionRange',
      { textDocument: { uri: URI }, positions: [null] },
      'params.positions[0] must be an object with line, character',
    ],
    ['workspace/symbol', { query: 5 }, 'params.query must be a text'],
    [
      'lotwright/newPlan',
      { name: 'x', units: 'imperial', harvest: '2027-09-01' },
      'params.units must be one of metric, us',
    ],
    ['lotwright/timeline', { uri: 5 }, 'params.uri must be a text'],
  ])('%s %j: %s', async (method, params, message) => {
    expect(await refusal(client, method, params)).toEqual({
      code: ErrorCodes.InvalidParams,
      message: `${method}: ${message}.`,
    });
  });

  it('a method that is none is told so, whatever it is called', async () => {
    for (const method of ['textDocument/nothing', '$/lotwright/refused'])
      expect(await refusal(client, method, {})).toMatchObject({ code: ErrorCodes.MethodNotFound });
  });

  it('whatever they are, no request fails inside', async () => {
    const right = { textDocument: { uri: URI }, position: { line: 2, character: 3 } };
    const params = fc.oneof(
      anything,
      // A right one with a part of it changed, or left out.
      fc
        .tuple(fc.constantFrom(...Object.values(REQUESTS)), anything, fc.nat(9))
        .map(([make, other, what]) => ({
          ...make(right, what),
          ...other,
        })),
      fc.constantFrom(undefined, null, {}, []),
      anything.map((other) => ({
        root: ROOT,
        problem: other,
        result: other,
        job: 1,
        span: other,
        tally: other,
      })),
    );
    let answered = 0;
    await fc.assert(
      fc.asyncProperty(fc.constantFrom(...METHODS), params, async (method, sent) => {
        const error = await refusal(client, method, sent);
        expect(error).not.toMatchObject({ code: ErrorCodes.InternalError });
        // What is refused for its parameters is what the table says of them, and nothing else.
        if (sent && !Array.isArray(sent) && wrongParams(method, sent) !== undefined)
          expect(error).toMatchObject({ code: ErrorCodes.InvalidParams });
        else answered++;
      }),
      { numRuns: 1500 },
    );
    expect(answered).toBeGreaterThan(50);
  }, 120_000);
});
