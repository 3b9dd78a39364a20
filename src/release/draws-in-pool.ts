import { type DrawSpan, type DrawTally, mergeTallies } from './draw-tally';
import type { DrawsPool } from './draws-pool';
import type { ReleaseSchedule } from './types';
import { blocksOf } from './uncertainty';

/** What a schedule comes to over a span of seasons, packing spread anew in each; added up block by block. */
export async function tallyInPool(
  pool: DrawsPool,
  schedule: ReleaseSchedule,
  span: DrawSpan,
  options: { readonly signal?: AbortSignal | undefined; readonly onDone?: (share: number) => void } = {},
): Promise<DrawTally> {
  const blocks = blocksOf(span);
  const answers = await pool.run(
    blocks.map((block) => ({ kind: 'tally', schedule, span: block, respread: true })),
    { signal: options.signal, onDone: (done) => options.onDone?.(done / blocks.length) },
  );
  return mergeTallies(answers.flatMap((one) => (one.kind === 'tally' ? [one.tally] : [])));
}
