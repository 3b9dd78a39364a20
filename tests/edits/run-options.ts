import { parseArgs } from 'node:util';

/** Sequences of one seed. */
export const BLOCK = 100;

const EXPECTED = `[<count>] [--from <a multiple of ${BLOCK}>] [--seed <number>]`;

export const EDITS_HELP = `npm run test:edits -- ${EXPECTED}

Random edits of plans: what is made again after an edit must be what is made afresh.

  <count>   sequences to try; 10000 without it, which takes some forty minutes of one core
  --from    the first of them; a run that was broken off goes on from there (0)
  --seed    of the first block of ${BLOCK} (2026)
  --help    tells this and tries nothing`;

export interface EditsOptions {
  readonly count: number;
  readonly from: number;
  readonly seed: number;
}

/** What the words of the command ask for; an error for any that are not known. */
export function editsOptions(words: readonly string[]): EditsOptions | 'help' {
  const { values, positionals } = parseArgs({
    args: [...words],
    allowPositionals: true,
    options: { from: { type: 'string' }, seed: { type: 'string' }, help: { type: 'boolean', short: 'h' } },
  });
  if (values.help) return 'help';
  const [count = '10000', ...more] = positionals;
  const numbers = [count, values.from ?? '0', values.seed ?? '2026'];
  const [tries = 0, from = 0, seed = 0] = numbers.map(Number);
  if (more.length > 0 || numbers.some((one) => !/^\d+$/.test(one)) || from % BLOCK !== 0)
    throw new Error(`expected: ${EXPECTED}`);
  return { count: tries, from, seed };
}
