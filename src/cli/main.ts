import { setFlagsFromString } from 'node:v8';
import { nodeIo } from './node-io';
import { runProgram } from './program';

// Most of what checking a plan runs, it runs once: the engine is to compile only what runs on and on. That saves a fourth
// of the processor time.
setFlagsFromString('--interrupt-budget=500000');

// A reader that has seen enough (`lotwright check | head`) is no error.
process.stdout.on('error', (error: NodeJS.ErrnoException) => {
  if (error.code === 'EPIPE') process.exit(0);
  throw error;
});

runProgram(process.argv.slice(2), nodeIo(__dirname)).then((code) => {
  process.exitCode = code;
});
