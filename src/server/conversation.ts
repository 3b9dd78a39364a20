import {
  type Connection,
  ErrorCodes,
  LSPErrorCodes,
  type Message,
  type MessageStrategy,
  type NotificationMessage,
  type RequestMessage,
  ResponseError,
} from 'vscode-languageserver';
import { wrongParams } from './params';

/** What a request becomes that is answered with an error: the library gives the answer, under the request's own number. */
const REFUSED = '$/lotwright/refused';

interface Refusal {
  readonly code: number;
  readonly message: string;
}

const START = { line: 0, character: 0 };
const NOTHING = { range: { start: START, end: START }, text: '' };

type Stage = 'before' | 'open' | 'ended';

/**
 * Every message passes here before anything else sees it: nothing is asked before the conversation has begun or after it
 * has ended, and no feature is asked with parameters that it could not read. Each connection has one of its own.
 */
export function conversation(): { readonly messageStrategy: MessageStrategy } {
  let stage: Stage = 'before';
  const handed = (message: Message): Message | undefined => {
    if (isRequest(message)) {
      const refusal = refusalOf(message, stage);
      if (refusal) return { ...message, method: REFUSED, params: refusal } as Message;
      if (message.method === 'initialize') {
        stage = 'open';
        return begun(message);
      }
      if (message.method === 'shutdown') stage = 'ended';
      // A request that needs nothing may leave its parameters out.
      return { ...message, params: message.params ?? {} } as Message;
    }
    if (!isNotification(message)) return message;
    if (stage !== 'open' && message.method !== 'exit') return undefined;
    return message.method === 'textDocument/didChange' ? withChange(message) : message;
  };
  return {
    messageStrategy: {
      handleMessage: (message, next) => {
        const now = handed(message);
        return now ? next(now) : undefined;
      },
    },
  };
}

/** Answers the requests that `conversation` has refused. */
export function answerRefused(connection: Connection): void {
  connection.onRequest(REFUSED, ({ code, message }: Refusal) => new ResponseError(code, message));
}

function refusalOf({ method, params }: RequestMessage, stage: Stage): Refusal | undefined {
  if (stage === 'ended')
    return { code: ErrorCodes.InvalidRequest, message: `${method} after shutdown: only exit can follow.` };
  if (stage === 'before' && method !== 'initialize')
    return {
      code: ErrorCodes.ServerNotInitialized,
      message: `${method} before initialize: the first request must be initialize.`,
    };
  if (stage === 'open' && method === 'initialize')
    return { code: ErrorCodes.InvalidRequest, message: 'initialize a second time: it has been answered.' };
  if (method === REFUSED) return { code: ErrorCodes.MethodNotFound, message: `Unhandled method ${method}` };
  const wrong = wrongParams(method, params ?? {});
  return wrong === undefined ? undefined : { code: ErrorCodes.InvalidParams, message: wrong };
}

/** The first request is answered whatever it says (`first-answer.ts`): parts that cannot be read are taken as not said. */
function begun(message: RequestMessage): Message {
  const said = isObject(message.params) ? message.params : {};
  const { capabilities, workspaceFolders, initializationOptions, ...rest } = said;
  const folders = Array.isArray(workspaceFolders) ? workspaceFolders : [];
  const params = {
    ...rest,
    capabilities: isObject(capabilities) ? capabilities : {},
    workspaceFolders: folders.filter((one) => isObject(one) && typeof one.uri === 'string'),
    initializationOptions: isObject(initializationOptions) ? initializationOptions : {},
  };
  return { ...message, params } as Message;
}

/**
 * A change of no text still has a version, which the library would not hear of: it becomes one that puts nothing at the
 * document's beginning.
 */
function withChange(message: NotificationMessage): Message {
  const { params } = message;
  const isEmpty =
    isObject(params) && Array.isArray(params.contentChanges) && params.contentChanges.length === 0;
  return isEmpty ? ({ ...message, params: { ...params, contentChanges: [NOTHING] } } as Message) : message;
}

function isObject(value: unknown): value is Readonly<Record<string, unknown>> {
  return typeof value === 'object' && value !== null && !Array.isArray(value);
}

function isRequest(message: Message): message is RequestMessage {
  return 'method' in message && 'id' in message;
}

function isNotification(message: Message): message is NotificationMessage {
  return 'method' in message && !('id' in message);
}

/**
 * Works on what a client has made of something that was handed out to it, which is large and was not looked through
 * before: where it has not the form that was asked for, that is the answer.
 */
export async function ofClient<Answer>(work: () => Answer | Promise<Answer>): Promise<Answer> {
  try {
    return await work();
  } catch (error) {
    if (!(error instanceof TypeError) && !(error instanceof RangeError)) throw error;
    throw new ResponseError(
      LSPErrorCodes.RequestFailed,
      `The result has not the form that was asked for: ${error.message}.`,
    );
  }
}
