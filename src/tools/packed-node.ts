/**
 * All that the packed extension runs in Node, in one file: server, command line and workers are made of the same parts,
 * and three files would hold them three times. Only what is asked for is started, and only its parts are evaluated.
 */
export function start(what: 'server' | 'cli' | 'worker'): void {
  if (what === 'server') void import('../server/node');
  else if (what === 'cli') void import('../cli/main');
  else void import('../server/worker-node');
}
