// `npm run test:edits [-- <count>] [--from <first>] [--seed <number>]`: random edits of plans, ten thousand sequences of
// them in place of the few that every run of the tests tries. What is made again after an edit must be what is made
// afresh, and no request may fail meanwhile. Sequences come in blocks, each with a seed of its own, so that any block can
// be tried alone: what was broken off goes on with `--from`. Takes some forty minutes of one core.
import fc from 'fast-check';
import { AskedServer, sessions } from './asked-meanwhile';
import { BLOCK, EDITS_HELP, type EditsOptions, editsOptions } from './run-options';
import { sameAfterEdits, sequences } from './same-again';

interface Done {
  sequences: number;
  states: number;
  requests: number;
}

const done: Done = { sequences: 0, states: 0, requests: 0 };

async function main({ count, from, seed }: EditsOptions): Promise<void> {
  const last = from + count;
  const failed: string[] = [];
  for (let first = from; first < last; first += BLOCK) {
    const runs = Math.min(BLOCK, last - first);
    try {
      await block({ numRuns: runs, seed: seed + first / BLOCK });
    } catch (error) {
      failed.push(`npm run test:edits -- ${runs} --from ${first} --seed ${seed}`);
      console.error(error);
    }
    done.sequences += runs;
    console.log(`${first + runs} of ${last}: ${told()}`);
  }
  if (failed.length > 0) throw new Error(`Something failed in these:\n${failed.join('\n')}`);
  console.log(`All the same, and every request answered: sequences ${from} to ${last}, ${told()}`);
}

/** The sequences of one seed, compared, then with a server and requests. */
async function block(parameters: { readonly numRuns: number; readonly seed: number }): Promise<void> {
  fc.assert(
    fc.property(sequences, (sequence) => {
      done.states += sameAfterEdits(sequence);
    }),
    parameters,
  );
  const server = new AskedServer();
  await server.start();
  await fc.assert(
    fc.asyncProperty(sessions, async (session) => {
      done.requests += await server.run(session);
    }),
    parameters,
  );
  await server.stop();
}

function told(): string {
  const { user, system } = process.cpuUsage();
  const [minutes, states, requests] = [(user + system) / 6e7, done.states, done.requests];
  return `${done.sequences} sequences, ${states} states compared, ${requests} requests, ${minutes.toFixed(1)} min of processor time`;
}

run(process.argv.slice(2)).catch((error: unknown) => {
  console.error(error);
  process.exit(1);
});

/** What cannot be read starts nothing: the run is long. */
async function run(words: readonly string[]): Promise<void> {
  const chosen = editsOptions(words);
  if (chosen === 'help') console.log(EDITS_HELP);
  else await main(chosen);
}
