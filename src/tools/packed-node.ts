import type { Taken } from '../server/serve-node';

/**
 * All that the packed extension runs in Node, in one file: server, command line and workers are made of the same parts,
 * and three files would hold them three times. Only what is asked for is started, and only its parts are evaluated. What
 * answers the server's first request is not in it: that stands by itself.
 */
export function start(what: 'cli' | 'worker'): void {
  if (what === 'cli') void import('../cli/main');
  else void import('../server/worker-node');
}

/** As `serve` of the server's parts. */
export async function serve(taken?: Taken): Promise<void> {
  const parts = await import('../server/serve-node');
  parts.serve(taken);
}
