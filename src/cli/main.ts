import { setFlagsFromString } from 'node:v8';
import { compilingRarely } from '../report/engine-settings';
import { nodeIo } from './node-io';
import { runProgram } from './program';

for (const setting of compilingRarely(process.versions.v8)) setFlagsFromString(setting);

// A reader that has seen enough (`lotwright check | head`) is no error.
process.stdout.on('error', (error: NodeJS.ErrnoException) => {
  if (error.code === 'EPIPE') process.exit(0);
  throw error;
});

runProgram(process.argv.slice(2), nodeIo(__dirname)).then((code) => {
  process.exitCode = code;
});
