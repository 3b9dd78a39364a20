import type { LoadHighs } from './linear';
import { PricingElsewhere, priceBeside } from './pricing-beside';
import type { Searched } from './prove-by-prices';
import { solveRelease } from './solve';
import { latestEnd, type StartMessage, type ToWorker, type WorkerMessage } from './worker-protocol';

/** What a worker is given by what it runs on. */
export interface WorkerSurroundings {
  loadHighs(wasm: StartMessage['wasm']): LoadHighs;
  post(message: WorkerMessage): void;
  /** Milliseconds from whenever. */
  clock(): number;
}

/**
 * A worker's one job: it solves, posting progress and each better schedule, then how it ended; or it works out prices
 * beside a worker that solves. Returns what takes its messages.
 */
export function releaseWorkerSide(surroundings: WorkerSurroundings): (message: ToWorker) => void {
  const pricing = new PricingElsewhere((searched) => surroundings.post({ kind: 'searched', searched }));
  let goOn: (searched: Searched) => void = () => {};
  return (message) => {
    if (message.kind === 'priced') pricing.take(message.priced);
    else if (message.kind === 'searched') goOn(message.searched);
    else if (message.kind === 'solve') void solveFor(message, surroundings, pricing);
    else {
      const ready = priceFor(message, surroundings);
      goOn = (searched) => void ready.then((more) => more?.(searched)).catch(failing(surroundings));
    }
  };
}

async function solveFor(
  message: StartMessage,
  surroundings: WorkerSurroundings,
  pricing: PricingElsewhere,
): Promise<void> {
  const { problem, options, wasm, hasPricing } = message;
  const { post } = surroundings;
  try {
    const result = await solveRelease(problem, {
      ...options,
      loadHighs: surroundings.loadHighs(wasm),
      shouldStop: stopAt(message, surroundings),
      pricing: hasPricing ? pricing : undefined,
      onProgress: (progress) => post({ kind: 'progress', progress }),
      onIncumbent: (incumbent) => post({ kind: 'incumbent', result: incumbent }),
    });
    post({ kind: 'done', result });
  } catch (error) {
    failing(surroundings)(error);
  }
}

async function priceFor(message: StartMessage, surroundings: WorkerSurroundings) {
  try {
    const hooks = {
      loadHighs: surroundings.loadHighs(message.wasm),
      shouldStop: stopAt(message, surroundings),
    };
    return await priceBeside(message.problem, message.options, hooks, (priced) =>
      surroundings.post({ kind: 'priced', priced }),
    );
  } catch (error) {
    failing(surroundings)(error);
    return undefined;
  }
}

function stopAt({ options }: StartMessage, { clock }: WorkerSurroundings): () => boolean {
  const end = clock() + 1000 * latestEnd(options);
  return () => clock() > end;
}

function failing({ post }: WorkerSurroundings): (error: unknown) => void {
  return (error) => post({ kind: 'failed', message: error instanceof Error ? error.message : String(error) });
}
