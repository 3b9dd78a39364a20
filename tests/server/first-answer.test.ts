import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { initializeResult } from '../../src/server/capabilities';
import { answerTo, firstMessage, framed } from '../../src/server/first-answer';

describe('the first answer', () => {
  it('is for the request to initialize, under its id, and for nothing else', () => {
    expect(answerTo({ jsonrpc: '2.0', id: 0, method: 'initialize', params: {} })).toEqual({
      jsonrpc: '2.0',
      id: 0,
      result: initializeResult,
    });
    for (const other of [undefined, 'initialize', { method: 'initialize' }, { id: 1, method: 'shutdown' }])
      expect(answerTo(other)).toBeUndefined();
  });

  it('waits for the whole message, however its bytes come', () => {
    fc.assert(
      fc.property(fc.jsonValue(), fc.string(), (content, rest) => {
        const whole = Buffer.from(framed(content));
        for (let length = 0; length < whole.length; length++)
          expect(firstMessage(whole.subarray(0, length))).toBeUndefined();
        const sent = Buffer.concat([whole, Buffer.from(rest)]);
        expect(firstMessage(sent)).toEqual({ content: JSON.parse(JSON.stringify(content)) });
      }),
    );
  });

  it('leaves what is no message to the server itself', () => {
    expect(firstMessage(Buffer.from('GET / HTTP/1.1\r\n\r\n'))).toEqual({ content: undefined });
    expect(firstMessage(Buffer.from('Content-Length: 3\r\n\r\n{a}'))).toEqual({ content: undefined });
  });
});
