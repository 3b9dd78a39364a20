import { initializeResult } from './capabilities';

export type RequestId = string | number;

export interface FirstAnswer {
  readonly jsonrpc: '2.0';
  readonly id: RequestId;
  readonly result: typeof initializeResult;
}

/** The answer to a client's first request; undefined for any other message. */
export function answerTo(message: unknown): FirstAnswer | undefined {
  if (typeof message !== 'object' || message === null) return undefined;
  const { id, method } = message as { readonly id?: unknown; readonly method?: unknown };
  const isRequest = method === 'initialize' && (typeof id === 'string' || typeof id === 'number');
  return isRequest ? { jsonrpc: '2.0', id, result: initializeResult } : undefined;
}

/**
 * The first message of a stream; undefined while it has not come whole. What is no message has undefined for its content:
 * whoever reads the stream after will say so.
 */
export function firstMessage(bytes: Buffer): { readonly content: unknown } | undefined {
  const end = bytes.indexOf('\r\n\r\n');
  if (end < 0) return undefined;
  const length = Number(/^content-length: *(\d+)/im.exec(bytes.toString('latin1', 0, end))?.[1]);
  if (!Number.isFinite(length)) return { content: undefined };
  const body = bytes.subarray(end + 4, end + 4 + length);
  if (body.length < length) return undefined;
  try {
    return { content: JSON.parse(body.toString('utf8')) };
  } catch {
    return { content: undefined };
  }
}

/** A message as it goes through a stream. */
export function framed(message: unknown): string {
  const text = JSON.stringify(message);
  return `Content-Length: ${Buffer.byteLength(text)}\r\n\r\n${text}`;
}
